/* sim/base/hash.h  FNV-1a in 64 bits: tells equal bytes from unequal ones; keeps no secret. */
#ifndef BASE_HASH_H
#define BASE_HASH_H

#include <stddef.h>
#include <stdint.h>

#define HASH_OF_NOTHING 14695981039346656037u /* the offset basis */

/* `hash` carried on over `size` more bytes. */
uint64_t hash_bytes(uint64_t hash, const void *data, size_t size);

#endif
