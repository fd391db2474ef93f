/* Whole characters in UTF-8 text. */
#include "base/utf8.h"

#include <stdbool.h>

size_t dawn_utf8_length(const char *s)
{
    const unsigned char *b = (const unsigned char *)s;
    if (b[0] < 0x80)
        return 1;
    const size_t length = b[0] >= 0xC2 && b[0] <= 0xDF   ? 2
                          : b[0] >= 0xE0 && b[0] <= 0xEF ? 3
                          : b[0] >= 0xF0 && b[0] <= 0xF4 ? 4
                                                         : 0;
    for (size_t i = 1; i < length; i++) {
        if ((b[i] & 0xC0u) != 0x80u)
            return 0;
    }
    const bool refused = (b[0] == 0xE0 && b[1] < 0xA0) || (b[0] == 0xED && b[1] > 0x9F) ||
                         (b[0] == 0xF0 && b[1] < 0x90) || (b[0] == 0xF4 && b[1] > 0x8F);
    return refused ? 0 : length;
}
