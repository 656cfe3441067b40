/* Entry for a coverage-guided fuzzer (libFuzzer's interface). */
#include <stdint.h>

#include "fuzz/fuzz.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    fuzz_run(data, size);
    return 0;
}
