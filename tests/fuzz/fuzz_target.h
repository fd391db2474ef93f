/* What libFuzzer, or replay_main.c in its place, calls with one input; every fuzz_*.c defines it.
 * The name is libFuzzer's: https://llvm.org/docs/LibFuzzer.html */
#ifndef FUZZ_TARGET_H
#define FUZZ_TARGET_H

#include <stddef.h>
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

#endif
