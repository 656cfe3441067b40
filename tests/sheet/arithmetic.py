"""Every formula of `explain` worked out again from its inputs, in a few lines of another language, with the band that the inputs' errors
leave. FORMULAS[name](inputs, value, band) gives (value, low, high), None where a part cannot be told from the inputs alone.

Sources: Buck 1981/1996 for vapour pressure; Keitz 1971 in the integral's form, so that the closed form is not copied; ISO 6946;
Andrews & Pough 1985, eq. 2; Jackson 1976/1985; WMO No. 8 Annex 4.B for absolute humidity."""
import math


def pressure_hpa(t):
    return 6.1121 * math.exp((18.678 - t / 234.5) * t / (257.14 + t))


def dew_point(t, rh):
    """By bisection on the pressure, not by an inverse formula."""
    wanted, low, high = rh / 100 * pressure_hpa(t), -60.0, 100.0
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if pressure_hpa(middle) < wanted else (low, middle)
    return low


def line(length, distance, beside=0.0, steps=4000):
    """A tube's light at a point, up to a factor: the integral of D^2 / (z^2 + D^2)^2 along it (Keitz 1971), midpoint rule."""
    dz = length / steps
    return sum(distance ** 2 / ((-length / 2 + (i + 0.5) * dz - beside) ** 2 + distance ** 2) ** 2 for i in range(steps)) * dz


def point(_length, distance, beside=0.0):
    """Inverse square, on a level receiver."""
    return distance / (distance ** 2 + beside ** 2) ** 1.5


def light(inputs, shape, distance, beside):
    length = inputs.get("tube-length", 0)
    return inputs["uvi-measured"] * inputs["mesh-share"] * shape(length, distance, beside) / shape(length, inputs["measured-at"])


def placed(shape, formula_nearest_cm, reach):
    """A light is worked out; a distance is checked by the light that it gives, under the lamp or at the offset, unless the formula's
    or the reading's own range ends there."""
    def gives(i, distance, wanted):
        ends = (formula_nearest_cm, i["measured-at"] * reach, i["measured-at"] / reach)
        if any(math.isclose(distance, end, rel_tol=1e-6) for end in ends):
            return distance
        found = [light(i, shape, distance, beside) for beside in (0, i["offset"])]
        return distance if any(math.isclose(one, wanted, rel_tol=2e-3) for one in found) else math.nan

    def work(i, value, band):
        error = i["error"] / 100
        if "height" in i:
            return scaled(light(i, shape, i["height"], i["offset"]), i["error"])
        wanted = i["uvi-wanted"]
        return gives(i, value, wanted), gives(i, band[0], wanted / (1 - error)), gives(i, band[1], wanted / (1 + error))
    return work


def scaled(value, percent):
    return value, value * (1 - percent / 100), value * (1 + percent / 100)


def rh_at(i, rh, to):
    return min(rh * pressure_hpa(i["from"]) / pressure_hpa(to), 100)


def moved(i, _value, _band):
    low, high = max(i["reading"] - 5, 0.1), min(i["reading"] + 5, 100)
    return rh_at(i, i["reading"], i["to"]), rh_at(i, low, i["to"] + i["step-error"]), rh_at(i, high, i["to"] - i["step-error"])


def oxygen(i, value, _band):
    def kcal(mass, temp, s):
        return 0.013 * mass ** 0.80 * 10 ** (0.038 * temp) * 10 ** (0.14 * s) * 24 * 20.1 / 4184
    m, t, em, et = i["mass"], i["body-temperature"], i["scale-error"], i["thermometer-error"]
    s = min((0, 1), key=lambda one: abs(kcal(m, t, one) - value))
    return kcal(m, t, s), kcal(m - em, t - et, s), kcal(m + em, t + et, s)


def least(i, _value, _band):
    return tuple(10 * ((i["mass"] + e) / 1000) ** 0.75 for e in (0, -i["scale-error"], i["scale-error"]))


def change(i, _value, _band):
    now, before, en, eb = i["mass-now"], i["mass-before"], i["scale-error-now"], i["scale-error-before"]
    return tuple((n / b - 1) * 100 for n, b in ((now, before), (now - en, before + eb), (now + en, max(before - eb, before / 2))))


def ratio(i, _value, _band):
    m, l, em, el = i["mass"], i["carapace-length"], i["scale-error"], i["tape-error"] / 100
    return m / l ** 3, (m - em) / (l * (1 + el)) ** 3, (m + em) / (l * (1 - el)) ** 3


def sides(i, _value, _band):
    return tuple(math.ceil(i["times"] * i["animal-length"] * (1 + e * i["tape-error"] / 100) - 1e-6) for e in (0, -1, 1))


def sides_plus(i, _value, _band):
    return tuple(math.ceil(i["times"] * i["animal-length"] * (1 + e * i["tape-error"] / 100) + i["plus"] - 1e-6) for e in (0, -1, 1))


def share(i, _value, _band):
    return tuple((i["mass"] + e) * i["share"] / 100 for e in (0, -i["scale-error"], i["scale-error"]))


def wall(i, _value, _band):
    return scaled(1 / (2 * i["surface-resistance"] + i["thickness"] / 100 / i["conductivity"]), 30)


def face(i, _value, _band):
    def at(u):
        return i["air"] - (i["air"] - i["room"]) * u * i["surface-resistance"]
    ends = [at(i["u-value"] * k) for k in (0.7, 1.3)]
    return at(i["u-value"]), min(ends) - 1, max(ends) + 1


def step(i, _value, _band):
    reading, low, high = i["reading"], i.get("target-low", -math.inf), i.get("target-high", math.inf)
    e = next(value for name, value in i.items() if name.endswith("-error"))
    gap = low - reading if reading < low else high - reading if reading > high else 0
    return gap, gap - e, gap + e


def emerson(i, _value, _band):
    """Emerson et al. 1975: pKa = 0.09018 + 2729.92 / (273.2 + T), the share of NH3 is 1 / (1 + 10^(pKa - pH))."""
    def gas(total, ph, temp):
        return total / (1 + 10 ** (0.09018 + 2729.92 / (273.2 + temp) - ph))
    total, ph, temp, kit, off, warm = (i[name] for name in ("ammonia-total", "ph", "temperature", "kit-error", "ph-error", "thermometer-error"))
    return gas(total, ph, temp), gas(total * (1 - kit / 100), ph - off, temp - warm), gas(total * (1 + kit / 100), ph + off, temp + warm)


def nitrogen(i, _value, _band):
    """Molar masses of NH3 and N: 17.031 and 14.007 g/mol."""
    return alone(i["ammonia-nitrogen"] * 17.031 / 14.007)


def alone(value):
    return value, value, value


def tank(i, _value, _band):
    return alone(i["length"] * i["width"] * i["depth"] / 1000)


def share_of_volume(i, _value, _band):
    ends = [i["volume"] * i[name] / 100 for name in ("share-low", "share-high")]
    return ends[0], *ends


def steps_of_a_day(i, _value, _band):
    return alone(math.ceil(i["too-warm"] / i["step"] - 1e-9))


def difference(i, _value, _band):
    first, second = i.values()
    return first - second, first - second - math.sqrt(2), first - second + math.sqrt(2)


def water(i, _value, _band):
    """Grams in a cubic metre, 216.679 e / T (WMO No. 8 Annex 4.B)."""
    per_percent = 216.679 * pressure_hpa(i["temperature"]) / (i["temperature"] + 273.15) / 100
    lack = (i["target-low"] - i["judged"]) * per_percent
    return lack, max(lack - 5 * per_percent, 0), lack + 5 * per_percent


def mesh(share_of):
    def work(i, _value, _band):
        passed = share_of(i)
        return passed, passed * (1 - i["mesh-error"] / 100), min(passed * (1 + i["mesh-error"] / 100), 1)
    return work


def beside(i, shape):
    length = i.get("tube-length", 0)
    uvi = i["uvi-measured"] * i["mesh-share"] * shape(length, i["below-lamp"], i["beside-lamp"]) / shape(length, i["measured-at"])
    return uvi, 0, uvi * (1 + i["error"] / 100)


def hours(i):
    """Half way about the equinoxes, northern half of the earth; common practice, no source."""
    summer, winter = i["hours-summer"], i["hours-winter"]
    return (summer + winter) / 2 if i["month"] in (3, 4, 9, 10) else summer if 5 <= i["month"] <= 8 else winter


def alone(value):
    return value, value, value


def loss(i, _value, _band):
    """Walls, lid, floor and 0.33 Wh/(m3 K) of air."""
    length, width, height = (i[side] / 100 for side in ("length", "width", "height"))
    per_degree = (2 * height * (length + width) * i["wall-u"] + length * width * (i["lid-u"] + i["floor-u"])
                  + 0.33 * i["air-changes"] * length * width * height)
    if not math.isclose(per_degree, i["loss"], rel_tol=1e-4):
        return math.nan, None, None
    return scaled(max(i["air"] - i["room"], 0) * per_degree + i["vapour"], 30)


def vapour(i, _value, _band):
    """Grams in saturated air less those of the room's, by the air that is changed: 2.45 kJ a gram."""
    inside, outside = (216.679 * 6.1121 * math.exp((18.678 - t / 234.5) * t / (257.14 + t)) * share / (t + 273.15)
                       for t, share in ((i["air"], 1), (i["room"], i["room-humidity"] / 100)))
    return alone(i["air-changes"] * i["volume"] * max(inside - outside, 0) * 2450 / 3600)


def insects(i, _value, _band):
    return i["count"] * i["each"], i["count"] * i["least-each"], i["count"] * i["most-each"]


def intake(i, _value, _band):
    return scaled(i["meal"] * i["energy"] / i["interval"], i["energy-error"])


def off_middle(i, value, band):
    return beside(i, line) if "below-lamp" in i else placed(line, 15, 3)(i, value, band)


def inverse(i, value, band):
    return beside(i, point) if "below-lamp" in i else placed(point, 20, 2)(i, value, band)


def pieces(i):
    """The share of the full meal or what it eats now, the greater: whole pieces, or grams."""
    more = max(i["full"] * i["share"] / 100, i["now"])
    return {more, max(1, math.ceil(more - 1e-9))}


def loss_a_week(i, _value, _band):
    ends = [max(i["mass"] * (1 - i[name] / 100 * i["weeks"]), i["goal"]) for name in ("most", "least")]
    return sum(ends) / 2, *ends


FORMULAS = {
    "nearest-end": step,
    "emerson-1975": emerson,
    "nitrogen-to-ammonia": nitrogen,
    "length-width-depth": tank,
    "share-of-volume": share_of_volume,
    "steps-of-a-day": steps_of_a_day,
    "difference": difference,
    "lower-half": lambda i, v, b: alone((i["band-low"] + i["band-high"]) / 2),
    "middle-half-low": lambda i, v, b: alone((3 * i["band-low"] + i["band-high"]) / 4),
    "middle-half-high": lambda i, v, b: alone((i["band-low"] + 3 * i["band-high"]) / 4),
    "upper-half": lambda i, v, b: alone((i["band-low"] + i["band-high"]) / 2),
    "upper-part-of-zone": lambda i, v, b: alone(min(max(i["zone-low"] + (i["zone-high"] - i["zone-low"]) * i["share"] / 100, i["usual-low"]), i.get("warmest", math.inf))),
    "warm-end-of-zone": lambda i, v, b: alone(min(max(i["zone-high"], i["usual-high"]), i.get("warmest", math.inf))),
    "low-part-of-day": lambda i, v, b: alone(max(min(i["zone-high"], i["day-low"] + (i["day-high"] - i["day-low"]) * i["part"] / 100), i["night-low"])),
    "low-end-of-day": lambda i, v, b: alone(i["day-low"]),
    "lifted-to-zone-low": lambda i, v, b: alone(max(i["usual-low"], i["zone-low"])),
    "lifted-to-zone-high": lambda i, v, b: alone(max(i["usual-high"], min(i["zone-low"] + i["usual-high"] - i["usual-low"], (i["zone-low"] + i["zone-high"]) / 2, i["warm-low"]))),
    "part-of-healthy-band": lambda i, v, b: alone(min(i["band-low"] + (i["band-high"] - i["band-low"]) * i["part"] / 100, i.get("warmest", math.inf))),
    "zone-maximum": lambda i, v, b: (i["most-high"], i["most-low"], i["most-high"]),
    "middle-of-mean": lambda i, v, b: alone(min(max((i["mean-low"] + i["mean-high"]) / 2, i["target-low"]), i["target-high"])),
    "mean-to-maximum": lambda i, v, b: alone(min(max((i["mean-high"] + i["most-low"]) / 2, i["target-low"]), i["target-high"])),
    "middle-of-band": lambda i, v, b: ((i["low"] + i["high"]) / 2, i["low"], i["high"]),
    "season-of-month": lambda i, v, b: (hours(i), None, None),
    "calendar-months": lambda i, v, b: (v if abs(i["life"] - i["age"] - v) <= 2 else math.nan, v, None),
    "mesh-loss": mesh(lambda i: 1 - i["mesh-loss"] / 100),
    "mesh-open-area": mesh(lambda i: (i["opening"] / (i["opening"] + i["wire"])) ** 2),
    "keitz-tube": placed(line, 15, 3),
    "keitz-tube-off-middle": off_middle,
    "inverse-square": inverse,
    "constant-vapour-pressure": moved,
    "buck-1996-dew-point": lambda i, v, b: (dew_point(i["temperature"], i["reading"]), dew_point(i["temperature"], max(i["reading"] - 5, 1)),
                                            dew_point(i["temperature"], min(i["reading"] + 5, 100))),
    "iso-6946": wall,
    "inner-face": face,
    "coldest": lambda i, v, b: tuple(min(i["coldest-air"], i["inner-face"]) + e for e in (0, -1, 1)),
    "absolute-humidity": water,
    "steady-loss": loss,
    "air-carries-vapour": vapour,
    "share-of-mass": share,
    "interval-times": lambda i, v, b: (v if v in (math.ceil(i["usual"] * i["times"] - 1e-9), math.floor(i["fast-limit"]), i["lowest"], i["usual-low"]) else math.nan, v, v),
    "shortest-interval": lambda i, v, b: alone(min(i["usual-low"], i["now"] or math.inf)),
    "meal-a-day": lambda i, v, b: alone(i["meal"] / i["interval"]),
    "share-of-goal": lambda i, v, b: alone(i["goal"] * i["share"] / 100),
    "present-intake": lambda i, v, b: alone(i["now"] * i["interval"]),
    "fewer-insects": lambda i, v, b: alone(max(1, math.floor(i["most"] + 1e-9))),
    "share-or-present": lambda i, v, b: alone(min(pieces(i), key=lambda one: abs(one - v))),
    "percent-of-today": lambda i, v, b: tuple((i["mass"] + e) * (1 + i["percent"] / 100) for e in (0, -i["scale-error"], i["scale-error"])),
    "warming-step": lambda i, v, b: alone(i["reading"] + (i["target-low"] - i["reading"]) * i["step"] / i["steps"]),
    "cooling-step": lambda i, v, b: alone(i["usual-low"] + (i["rest"] - i["usual-low"]) * i["step"] / i["steps"]),
    "loss-a-week": loss_a_week,
    "share-of-meal": lambda i, v, b: alone(i["usual"] * i["share"] / 100),
    "least-energy-reptiles": least,
    "andrews-pough-1985": oxygen,
    "meal-energy-a-day": intake,
    "count-times-mass": insects,
    "jackson-ratio": ratio,
    "percent-change": change,
    "percent-per-30-days": lambda i, v, b: (i["change"] * 30 / i["days"], None, None),
    "dose-by-mass": lambda i, v, b: tuple(i["dose"] * (i["mass"] + e) / 1000 for e in (0, -i["scale-error"], i["scale-error"])),
    "amount-by-strength": lambda i, v, b: tuple(i[name] / i["strength"] for name in ("amount", "amount-low", "amount-high")),
    "day-length": lambda i, v, b: alone(24 / math.pi * math.acos(-math.tan(math.radians(i["latitude"])) * math.tan(0.409 * math.sin(2 * math.pi / 365 * i["day"] - 1.39)))),
    "mineral-a-day": lambda i, v, b: alone(i["food"] * i["content"] / 100),
    "calcium-to-phosphorus": lambda i, v, b: alone(i["calcium"] / i["phosphorus"]),
    "ratio-of-batches": lambda i, v, b: tuple(i["ratio"] * (1 + e * i["minerals-error"] / 100) / (1 - e * i["minerals-error"] / 100) for e in (0, -1, 1)),
    "floor-for-company": lambda i, v, b: alone(i["length"] * i["width"] * i["times"]),
    "multiple-of-length": sides,
    "multiple-of-length-plus": sides_plus,
}
# said to be held at the end of a range: there is nothing to work out
HELD = {"held-in-range", "tube-of-unknown-length"}
