#pragma once
/// A photograph out of a file's bytes: JPEG or PNG into linear light, the right way up. Not in the browser, which
/// decodes itself.

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "foretone/photo/pixels.hpp"

namespace foretone::photo {

/// What is refused before any memory is taken for pixels.
struct PhotoLimits {
    double megapixels = 120;                    ///< most pixels
    std::size_t memory = std::size_t(1) << 30;  ///< most bytes for pixels while decoding
    std::size_t pictures = 1;                   ///< pictures of this size that the run will hold
    double megapixels_together = 1000;          ///< most pixels in all of them
    int scans = 64;                             ///< most passes of a progressive JPEG; ordinary ones have about ten
};

/// What the header says.
struct PhotoHead {
    std::string format;         ///< "JPEG" or "PNG"
    int width = 0, height = 0;  ///< as seen: after turning
    int bits = 8;               ///< a channel
    int orientation = 1;        ///< EXIF, 1–8; 1 is upright
    bool alpha = false;
    std::string profile;     ///< name of the embedded color profile; empty: none
    std::size_t memory = 0;  ///< bytes that decoding takes
};

struct Photo {
    PhotoHead head;
    Pixels pixels;
    std::vector<PhotoNote> notes;  ///< turned, profile read or assumed, transparency
};

/// The picture in `file`. Color profiles are honored (without one the codes are taken as sRGB), EXIF orientation is
/// applied, transparent pixels are laid over white in linear light. Throws PhotoFault: `picture-empty`, `picture-kind`
/// (neither JPEG nor PNG), `picture-size` and `picture-sum` (beyond the limits, before memory is taken),
/// `picture-truncated`, `picture-damaged`, `picture-cmyk`, `picture-grey`, `picture-bits` (12-bit or lossless JPEG),
/// `picture-scans`.
Photo read_photo(std::span<const std::uint8_t> file, const PhotoLimits& limits = {});

/// EXIF orientation in a TIFF block (what follows "Exif\0\0" in a JPEG, the eXIf chunk of a PNG): 1–8, 1 if there is
/// none or the block cannot be read.
int exif_orientation(std::span<const std::uint8_t> tiff);

}  // namespace foretone::photo
