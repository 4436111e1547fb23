#pragma once
/// A PNG of wood or a photograph made row by row: the bytes of `encode_png` with `photograph`, without the whole
/// picture in memory.

#include <cstdint>
#include <functional>
#include <span>
#include <vector>

#include "foretone/format/png.hpp"

namespace foretone::format {

class PngRows {
public:
    /// Takes bytes of the file, in order.
    using Sink = std::function<void(std::span<const std::uint8_t>)>;

    /// `sink` gets the file from where its packed pixels begin; what stands before them is known only at the end.
    /// Throws as `encode_png`.
    PngRows(int width, int height, const PngOptions& options, Sink sink);

    /// Whole rows from the top, any number at a time. Throws std::invalid_argument for parts of rows, or too many.
    void add(std::span<const std::uint8_t> rgb);

    /// When all rows are added: what the file begins with, before what the sink has got by now. Throws
    /// std::invalid_argument if rows are missing.
    std::vector<std::uint8_t> finish();

private:
    void pack(bool last);
    void put(std::span<const std::uint8_t> data);

    int width_, height_, taken_ = 0;
    PngOptions options_;
    Sink sink_;
    std::vector<std::uint8_t> waiting_, above_;  // rows not packed yet, and the row above them
    std::uint64_t length_ = 0;                   // of the packed pixels
    unsigned long check_ = 1, crc_ = 0;          // Adler-32 of the rows, CRC-32 of the chunk
};

}  // namespace foretone::format
