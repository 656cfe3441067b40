/* Reading a certificate, and making one with GnuTLS (X.509, RFC 5280). */
#include "desk/tls.h"

#include <arpa/inet.h>
#include <gnutls/gnutls.h>
#include <gnutls/x509.h>
#include <string.h>
#include <sys/random.h>
#include <sys/stat.h>
#include <time.h>

enum { YEARS = 10, PEM_BYTES = 16 * 1024 };

static bool fault(struct diag *diag, const char *path, int error)
{
    diag_report(diag, DIAG_FAULT, "no-certificate", (struct mark){.file = path},
                "no certificate can be made: %s", gnutls_strerror(error));
    return false;
}

static int set_names(gnutls_x509_crt_t certificate, const char *address)
{
    unsigned char number[16];
    struct in_addr four;
    struct in6_addr six;
    int error =
        getrandom(number, sizeof number, 0) == (ssize_t)sizeof number ? 0 : GNUTLS_E_RANDOM_FAILED;
    number[0] &= 0x7f; /* a positive number, RFC 5280, 4.1.2.2 */
    if (!error)
        error = gnutls_x509_crt_set_serial(certificate, number, sizeof number);
    if (!error)
        error = gnutls_x509_crt_set_dn_by_oid(certificate, GNUTLS_OID_X520_COMMON_NAME, 0,
                                              "baskleaf front desk", strlen("baskleaf front desk"));
    if (!error && inet_pton(AF_INET, address, &four) == 1)
        error = gnutls_x509_crt_set_subject_alt_name(certificate, GNUTLS_SAN_IPADDRESS, &four,
                                                     sizeof four, GNUTLS_FSAN_APPEND);
    else if (!error && inet_pton(AF_INET6, address, &six) == 1)
        error = gnutls_x509_crt_set_subject_alt_name(certificate, GNUTLS_SAN_IPADDRESS, &six,
                                                     sizeof six, GNUTLS_FSAN_APPEND);
    if (!error)
        error = gnutls_x509_crt_set_subject_alt_name(certificate, GNUTLS_SAN_DNSNAME, "localhost",
                                                     strlen("localhost"), GNUTLS_FSAN_APPEND);
    return error;
}

static int fill(gnutls_x509_crt_t certificate, gnutls_x509_privkey_t key, const char *address)
{
    time_t now = time(NULL);
    int error = gnutls_x509_privkey_generate(key, GNUTLS_PK_ECDSA,
                                             GNUTLS_CURVE_TO_BITS(GNUTLS_ECC_CURVE_SECP256R1), 0);
    if (!error)
        error = gnutls_x509_crt_set_version(certificate, 3);
    if (!error)
        error = gnutls_x509_crt_set_activation_time(certificate, now - 24 * 3600);
    if (!error)
        error =
            gnutls_x509_crt_set_expiration_time(certificate, now + (time_t)YEARS * 365 * 24 * 3600);
    if (!error)
        error = set_names(certificate, address);
    if (!error)
        error = gnutls_x509_crt_set_basic_constraints(certificate, 0, -1);
    if (!error)
        error = gnutls_x509_crt_set_key_usage(certificate, GNUTLS_KEY_DIGITAL_SIGNATURE);
    if (!error)
        error = gnutls_x509_crt_set_key_purpose_oid(certificate, GNUTLS_KP_TLS_WWW_SERVER, 0);
    if (!error)
        error = gnutls_x509_crt_set_key(certificate, key);
    if (!error)
        error = gnutls_x509_crt_sign2(certificate, certificate, key, GNUTLS_DIG_SHA256, 0);
    return error;
}

static int export_both(gnutls_x509_crt_t certificate, gnutls_x509_privkey_t key, char *out,
                       size_t *length)
{
    size_t first = PEM_BYTES, second;
    int error = gnutls_x509_crt_export(certificate, GNUTLS_X509_FMT_PEM, out, &first);
    second = PEM_BYTES - first;
    if (!error)
        error = gnutls_x509_privkey_export(key, GNUTLS_X509_FMT_PEM, out + first, &second);
    *length = first + second;
    return error;
}

/* Certificate and key in one file that nobody else may read. */
static bool make_file(const char *path, const char *address, struct diag *diag)
{
    gnutls_x509_crt_t certificate;
    gnutls_x509_privkey_t key;
    char pem[PEM_BYTES];
    size_t length = 0;
    int error = gnutls_x509_crt_init(&certificate);
    if (error)
        return fault(diag, path, error);
    error = gnutls_x509_privkey_init(&key);
    if (!error) {
        error = fill(certificate, key, address);
        if (!error)
            error = export_both(certificate, key, pem, &length);
        gnutls_x509_privkey_deinit(key);
    }
    gnutls_x509_crt_deinit(certificate);
    if (error)
        return fault(diag, path, error);
    bool good = file_write_atomic(path, pem, length, 0600, diag);
    explicit_bzero(pem, sizeof pem);
    return good;
}

bool tls_read(const struct store *store, const char *file, const char *address, struct arena *arena,
              struct diag *diag, struct tls_pair *out)
{
    struct stat st;
    struct bytes text;
    const char *path = file ? file : file_join(arena, store->folder, ".certificate.pem");
    if (!file && !file_exists(path) && !make_file(path, address, diag))
        return false;
    if (!file_read(path, FILE_LIMIT_BYTES, arena, diag, &text))
        return false;
    if (stat(path, &st) == 0 && (st.st_mode & (S_IRWXG | S_IRWXO))) {
        diag_report(diag, DIAG_ERROR, "not-private", (struct mark){.file = path},
                    "others may read this key; chmod 600 ends that");
        return false;
    }
    if (strstr(text.data, "-----BEGIN CERTIFICATE-----") && strstr(text.data, "PRIVATE KEY-----")) {
        *out = (struct tls_pair){text.data, text.data}; /* each reader takes what it looks for */
        return true;
    }
    diag_report(diag, DIAG_ERROR, "no-certificate", (struct mark){.file = path},
                "holds no certificate with its key, both as PEM");
    return false;
}
