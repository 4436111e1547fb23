// PNG packing for pictures of wood: each row as differences from its left or its upper neighbours, whichever are
// smaller, packed in bands of 64 rows that know nothing of each other, so that threads can share them out and the bytes
// are the same for any number.

#include <zlib.h>

#include <algorithm>
#include <cstdlib>
#include <new>
#include <stdexcept>
#include <string>

#include "foretone/base/parallel.hpp"
#include "foretone/format/png_rows.hpp"
#include "png_pack.hpp"

namespace foretone::format {
namespace {

using Bytes = std::vector<std::uint8_t>;

constexpr int band_rows = 64;
// Wood repeats nothing: codes by frequency alone make it smaller than zlib's level 1 does (a noisy photograph by a
// sixth, drawn boards by a fifth and more), in two thirds of the time. Where this share of bytes is like the one
// before, runs are told too (choice: on drawn boards the two part at about 0.7).
constexpr double even_share = 0.7;
constexpr int effort = 1;

// The row with its filter byte in front: 1 from the left, 2 from above.
void filter(const std::uint8_t* row, const std::uint8_t* above, std::size_t bytes, std::uint8_t* out) {
    unsigned left_sum = 0, above_sum = 0;
    const auto size = [](std::uint8_t d) {
        return static_cast<unsigned>(std::abs(static_cast<int>(static_cast<std::int8_t>(d))));
    };
    for (std::size_t i = 3; i < bytes; ++i) left_sum += size(static_cast<std::uint8_t>(row[i] - row[i - 3]));
    if (above)
        for (std::size_t i = 3; i < bytes; ++i) above_sum += size(static_cast<std::uint8_t>(row[i] - above[i]));
    if (above && above_sum < left_sum) {
        out[0] = 2;
        for (std::size_t i = 0; i < bytes; ++i) out[i + 1] = static_cast<std::uint8_t>(row[i] - above[i]);
        return;
    }
    out[0] = 1;
    for (std::size_t i = 0; i < bytes; ++i) out[i + 1] = static_cast<std::uint8_t>(row[i] - (i < 3 ? 0 : row[i - 3]));
}

struct Band {
    Bytes packed;
    uLong check = 1;  // Adler-32 of the filtered rows
    uLong length = 0;
};

// Rows whose upper neighbour is `above`, null at the top of the picture.
Band pack_band(const std::uint8_t* rows, const std::uint8_t* above, int count, std::size_t stride, bool last) {
    Bytes filtered((stride + 1) * static_cast<std::size_t>(count));
    for (std::size_t y = 0; y < static_cast<std::size_t>(count); ++y) {
        const std::uint8_t* row = rows + stride * y;
        filter(row, y > 0 ? row - stride : above, stride, filtered.data() + (stride + 1) * y);
    }
    Band band;
    band.length = static_cast<uLong>(filtered.size());
    band.check = adler32(1, filtered.data(), static_cast<uInt>(filtered.size()));
    std::size_t alike = 0;
    for (std::size_t i = 1; i < filtered.size(); ++i) alike += filtered[i] == filtered[i - 1] ? 1 : 0;
    const int strategy = double(alike) < even_share * double(filtered.size()) ? Z_HUFFMAN_ONLY : Z_RLE;
    z_stream z{};
    if (deflateInit2(&z, effort, Z_DEFLATED, -15, 9, strategy) != Z_OK) throw std::bad_alloc();
    band.packed.resize(deflateBound(&z, static_cast<uLong>(filtered.size())) + 64);
    z.next_in = filtered.data();
    z.avail_in = static_cast<uInt>(filtered.size());
    z.next_out = band.packed.data();
    z.avail_out = static_cast<uInt>(band.packed.size());
    const int result = deflate(&z, last ? Z_FINISH : Z_FULL_FLUSH);
    const bool good = (result == Z_OK || result == Z_STREAM_END) && z.avail_in == 0;
    band.packed.resize(z.total_out);
    deflateEnd(&z);
    if (!good) throw std::bad_alloc();
    return band;
}

void put_u32(Bytes& out, uLong v) {
    for (int shift = 24; shift >= 0; shift -= 8) out.push_back(static_cast<std::uint8_t>((v >> shift) & 0xFFu));
}

std::size_t row_bytes(int width) { return 3 * static_cast<std::size_t>(width); }

}  // namespace

PngRows::PngRows(int width, int height, const PngOptions& options, Sink sink)
    : width_(width), height_(height), options_(options), sink_(std::move(sink)) {
    png_head(width, height, options, 0);  // says what is wrong with them
    crc_ = crc32(0, reinterpret_cast<const Bytef*>("IDAT"), 4);
    put(Bytes{0x78, 0x01});
}

void PngRows::put(std::span<const std::uint8_t> data) {
    crc_ = crc32_z(crc_, data.data(), data.size());
    length_ += data.size();
    sink_(data);
}

void PngRows::add(std::span<const std::uint8_t> rgb) {
    const std::size_t stride = row_bytes(width_);
    const auto rows = static_cast<int>(rgb.size() / stride);
    if (rgb.size() % stride != 0 || rows > height_ - taken_)
        throw std::invalid_argument("format::PngRows: " + std::to_string(rgb.size()) + " bytes are not rows of the " +
                                    std::to_string(height_ - taken_) + " that are left");
    taken_ += rows;
    waiting_.insert(waiting_.end(), rgb.begin(), rgb.end());
    pack(taken_ == height_);
}

// Whole bands, and at the end what is left.
void PngRows::pack(bool last) {
    const std::size_t stride = row_bytes(width_), rows = waiting_.size() / stride, high = band_rows;
    const std::size_t count = last ? (rows + high - 1) / high : rows / high;
    if (count == 0) return;
    std::vector<Band> bands(count);
    base::parallel_for(count, 0, [&](std::size_t i) {
        const std::uint8_t* from = waiting_.data() + i * high * stride;
        const bool top = i == 0 && above_.empty();
        bands[i] = pack_band(from,
                             top      ? nullptr
                             : i == 0 ? above_.data()
                                      : from - stride,
                             static_cast<int>(std::min(high, rows - i * high)), stride, last && i + 1 == count);
    });
    for (const auto& b : bands) {
        put(b.packed);
        check_ = adler32_combine(check_, b.check, static_cast<z_off_t>(b.length));
    }
    const auto done = waiting_.begin() + static_cast<std::ptrdiff_t>(std::min(rows, count * high) * stride);
    above_.assign(done - static_cast<std::ptrdiff_t>(stride), done);
    waiting_.erase(waiting_.begin(), done);
}

std::vector<std::uint8_t> PngRows::finish() {
    if (taken_ != height_)
        throw std::invalid_argument("format::PngRows: " + std::to_string(height_ - taken_) + " rows are missing");
    Bytes check, end;
    put_u32(check, check_);
    put(check);
    put_u32(end, crc_);
    const std::uint8_t last_chunk[] = {0, 0, 0, 0, 'I', 'E', 'N', 'D', 0xAE, 0x42, 0x60, 0x82};
    end.insert(end.end(), std::begin(last_chunk), std::end(last_chunk));
    sink_(end);
    return png_head(width_, height_, options_, length_);
}

std::vector<std::uint8_t> encode_png_photograph(const light::Image& image, const PngOptions& options) {
    Bytes pixels;
    PngRows rows(image.width, image.height, options,
                 [&](std::span<const std::uint8_t> data) { pixels.insert(pixels.end(), data.begin(), data.end()); });
    rows.add(image.rgb);
    Bytes out = rows.finish();
    out.insert(out.end(), pixels.begin(), pixels.end());
    return out;
}

}  // namespace foretone::format
