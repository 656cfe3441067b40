/* The clinic's telephone number as a QR code (ISO/IEC 18004) with its quiet zone of 4 modules. */
#include "sheet/draw.h"

#ifdef HAVE_QRENCODE
#include <qrencode.h>

enum { QUIET_MODULES = 4 };
static const double MODULE_PT = 2.5;

bool draw_qr(struct composition *c, struct picture *out)
{
    const char *uri = draw_telephone_uri(c->arena, c->plan->letterhead.telephone);
    QRcode *code = uri ? QRcode_encodeString8bit(uri, 0, QR_ECLEVEL_M) : NULL;
    if (!code)
        return false;
    size_t side = (size_t)code->width;
    uint8_t *bits = ARENA_ARRAY(c->arena, uint8_t, side * side);
    for (size_t i = 0; i < side * side; i++)
        bits[i] = code->data[i] & 1;
    QRcode_free(code);
    double whole = MODULE_PT * (double)(side + 2 * QUIET_MODULES);
    struct drawing drawing = draw_start(c->arena, whole, whole);
    draw_rect(&drawing, 0, 0, whole, whole,
              (struct draw_style){.fill_ink = INK_PAPER, .fill = FILL_SOLID});
    struct shape *modules = draw_rect(
        &drawing, MODULE_PT * QUIET_MODULES, MODULE_PT * QUIET_MODULES, MODULE_PT * (double)side,
        MODULE_PT * (double)side, (struct draw_style){.fill_ink = INK_TEXT, .fill = FILL_SOLID});
    modules->kind = SHAPE_MODULES;
    modules->bits = bits;
    modules->count = side;
    *out = (struct picture){drawing.scene, phrase(&c->ctx, "picture.qr.caption"),
                            phrase(&c->ctx, "picture.qr.alternative")};
    return true;
}
#else
bool draw_qr(struct composition *c, struct picture *out)
{
    (void)c;
    (void)out;
    return false;
}
#endif
