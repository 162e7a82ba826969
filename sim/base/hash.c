/* sim/base/hash.c  FNV-1a: every byte is mixed in, then spread by a prime of few bits. */
#include "base/hash.h"

#define PRIME 1099511628211u /* 2^40 + 2^8 + 0xb3 */

uint64_t hash_bytes(uint64_t hash, const void *data, size_t size)
{
    const unsigned char *byte = data;
    for (size_t k = 0; k < size; k++)
        hash = (hash ^ byte[k]) * PRIME;
    return hash;
}
