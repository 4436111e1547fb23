#include "support/pictures/exr_reader.hpp"

#include <OpenEXR/ImfChannelList.h>
#include <OpenEXR/ImfChromaticitiesAttribute.h>
#include <OpenEXR/ImfFloatAttribute.h>
#include <OpenEXR/ImfFrameBuffer.h>
#include <OpenEXR/ImfHeader.h>
#include <OpenEXR/ImfIO.h>
#include <OpenEXR/ImfInputFile.h>
#include <OpenEXR/ImfStringAttribute.h>
#include <OpenEXR/ImfVecAttribute.h>

#include <cstring>
#include <stdexcept>
#include <string_view>

namespace foretone::test {
namespace {

class ByteStream : public Imf::IStream {
public:
    explicit ByteStream(const std::vector<std::uint8_t>& bytes) : Imf::IStream("bytes"), bytes_(bytes) {}
    bool read(char to[], int count) override {
        if (at_ + static_cast<std::size_t>(count) > bytes_.size()) throw std::runtime_error("the bytes end too early");
        std::memcpy(to, bytes_.data() + at_, static_cast<std::size_t>(count));
        at_ += static_cast<std::size_t>(count);
        return at_ < bytes_.size();
    }
    std::uint64_t tellg() override { return at_; }
    void seekg(std::uint64_t at) override { at_ = at; }

private:
    const std::vector<std::uint8_t>& bytes_;
    std::size_t at_ = 0;
};

// Names of the channel list in the order of the file: the library sorts what it hands out, so the bytes are read here.
std::vector<std::string> order_in(const std::vector<std::uint8_t>& bytes) {
    const std::string_view all(reinterpret_cast<const char*>(bytes.data()), bytes.size());
    const std::string_view mark("channels\0chlist\0", 16);
    std::size_t at = all.find(mark);
    if (at == std::string_view::npos) return {};
    at += mark.size() + 4;
    std::vector<std::string> names;
    while (all[at] != '\0') {
        const std::size_t end = all.find('\0', at);
        names.emplace_back(all.substr(at, end - at));
        at = end + 1 + 16;  // type, flags, samplings
    }
    return names;
}

}  // namespace

ExrFile read_exr(const std::vector<std::uint8_t>& bytes) {
    ByteStream stream(bytes);
    Imf::InputFile file(stream);
    const auto& header = file.header();
    const auto window = header.dataWindow();
    ExrFile out;
    out.width = window.max.x - window.min.x + 1;
    out.height = window.max.y - window.min.y + 1;
    out.zip = header.compression() == Imf::ZIP_COMPRESSION;
    out.complete = file.isComplete();
    out.order = order_in(bytes);
    Imf::FrameBuffer frame;
    for (auto c = header.channels().begin(); c != header.channels().end(); ++c) {
        out.half[c.name()] = c.channel().type == Imf::HALF;
        auto& values = out.channels[c.name()];
        values.resize(static_cast<std::size_t>(out.width) * static_cast<std::size_t>(out.height));
        frame.insert(c.name(), Imf::Slice(Imf::FLOAT, reinterpret_cast<char*>(values.data()), sizeof(float),
                                          sizeof(float) * static_cast<std::size_t>(out.width)));
    }
    file.setFrameBuffer(frame);
    file.readPixels(window.min.y, window.max.y);
    for (auto a = header.begin(); a != header.end(); ++a) {
        if (const auto* s = dynamic_cast<const Imf::StringAttribute*>(&a.attribute())) out.texts[a.name()] = s->value();
        if (const auto* f = dynamic_cast<const Imf::FloatAttribute*>(&a.attribute()))
            out.numbers[a.name()] = {f->value()};
        if (const auto* v = dynamic_cast<const Imf::V2fAttribute*>(&a.attribute()))
            out.numbers[a.name()] = {v->value().x, v->value().y};
        if (const auto* c = dynamic_cast<const Imf::ChromaticitiesAttribute*>(&a.attribute())) {
            const auto& v = c->value();
            out.numbers[a.name()] = {v.red.x, v.red.y, v.green.x, v.green.y, v.blue.x, v.blue.y, v.white.x, v.white.y};
        }
    }
    return out;
}

}  // namespace foretone::test
