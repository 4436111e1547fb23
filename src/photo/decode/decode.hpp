#pragma once
/// The readers behind `read_photo`.

#include <optional>
#include <span>

#include "foretone/photo/photo_file.hpp"
#include "profile.hpp"

namespace foretone::photo {

Photo read_jpeg(std::span<const std::uint8_t> file, const PhotoLimits& limits);
Photo read_png_photo(std::span<const std::uint8_t> file, const PhotoLimits& limits);
#ifdef FORETONE_HEIF
/// Nothing where libheif cannot read it; `why_not` then says why, in its words.
std::optional<Photo> read_heif(std::span<const std::uint8_t> file, const PhotoLimits& limits, std::string& why_not);
#endif

/// The second picture of one for bright screens was left out.
PhotoNote gain_map_note();

/// Refuses what is beyond the limits; `head.width`, `head.height` as stored and `head.memory` are set.
void check_size(const PhotoHead& head, const PhotoLimits& limits);

/// The meaning of the codes under `profile` (may be empty), with a note of what was done.
CodeMeaning meaning_of(std::span<const std::uint8_t> profile, PhotoHead& head, std::vector<PhotoNote>& notes);

/// Sides and note of a picture that EXIF turns.
void turn(PhotoHead& head, std::vector<PhotoNote>& notes);

/// "4032 × 3024"
std::string sides(const PhotoHead& head);

/// The file ends after `rows` of the picture's rows.
[[noreturn]] void refuse_truncated(const PhotoHead& head, long long rows);

/// The file's contents contradict themselves; `words` are the decoder's.
[[noreturn]] void refuse_damaged(const PhotoHead& head, const std::string& words);

[[noreturn]] void refuse_grey(const PhotoHead& head);

}  // namespace foretone::photo
