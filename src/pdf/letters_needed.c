/* Which letters cannot be drawn one beside the other from left to right. */
#include "pdf/letters.h"

/* As Unicode's properties Bidi_Class and General_Category have them, in whole blocks. */
bool letters_are_needed(unsigned code_point)
{
    static const struct {
        unsigned first, last;
    } blocks[] = {
        {0x0300, 0x036F}, /* combining marks */
        {0x0590, 0x08FF}, /* Hebrew, Arabic, Syriac, Thaana, N'Ko and further ones */
        {0x1AB0, 0x1AFF},   {0x1DC0, 0x1DFF}, /* combining marks */
        {0x200C, 0x200F},                     /* joiners and marks of direction */
        {0x202A, 0x202E},   {0x2066, 0x2069}, /* directions and isolates */
        {0x20D0, 0x20FF},                     /* combining marks for symbols */
        {0xFB1D, 0xFDFF},   {0xFE20, 0xFE2F},   {0xFE70, 0xFEFE}, /* presentation forms */
        {0x10800, 0x10FFF}, {0x1E800, 0x1EFFF}, /* further scripts from right to left */
    };
    if (code_point < blocks[0].first)
        return false;
    for (size_t i = 0; i < sizeof blocks / sizeof *blocks; i++)
        if (code_point >= blocks[i].first && code_point <= blocks[i].last)
            return true;
    return false;
}
