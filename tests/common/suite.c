/* Runs a Check suite as a TAP program. */
#include "common/suite.h"

int suite_run(Suite *suite)
{
    SRunner *runner = srunner_create(suite);
    srunner_set_tap(runner, "-");
    srunner_run_all(runner, CK_SILENT);
    srunner_free(runner);
    return 0;
}
