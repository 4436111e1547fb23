#pragma once
// The little of zlib that the PNG writer asks for; Debian has no zlib for the browser. Packing is stb_image_write's.

#include <cstddef>

using uLong = unsigned long;
using uLongf = unsigned long;
using uInt = unsigned int;
using Bytef = unsigned char;
inline constexpr int Z_OK = 0, Z_BUF_ERROR = -5;

/// CRC-32 (ISO 3309) of `size` more bytes after those that gave `crc`.
uLong crc32(uLong crc, const Bytef* bytes, uInt size);

/// Most bytes that packing `size` bytes may take.
uLong compressBound(uLong size);

/// Packs `source` into `out` as a zlib stream; `out_size` is its room, then what was used.
int compress2(Bytef* out, uLongf* out_size, const Bytef* source, uLong size, int level);
