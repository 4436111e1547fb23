// The file is taken apart at its objects and put together again: header · objects · three new ones · a table of where
// each of them begins. New are the profile, the catalog that names it, and the description. The catalog and description
// that cairo wrote stay where they are, and nothing points to them any more; their date is overwritten with blanks.

#include "output_intent.hpp"

#include <lcms2.h>

#include <fmt/core.h>

#include <algorithm>
#include <stdexcept>

#include "foretone/base/number.hpp"
#include "foretone/base/utf8.hpp"

namespace foretone::print {
namespace {

[[noreturn]] void unlike(const char* what) {
    throw std::logic_error(std::string("print::with_output_intent: cairo wrote a PDF without ") + what);
}

std::size_t place_of(const std::string& pdf, std::string_view what, std::size_t from = 0) {
    const auto at = pdf.find(what, from);
    if (at == std::string::npos) unlike(std::string(what).c_str());
    return at;
}

std::size_t number_after(const std::string& pdf, std::string_view key, std::size_t from) {
    const auto at = place_of(pdf, key, from) + key.size(), begin = pdf.find_first_not_of(' ', at);
    if (begin == std::string::npos) unlike("a number");
    const auto number = base::number_in(pdf.substr(begin, pdf.find_first_not_of("0123456789", begin) - begin));
    if (!number) unlike("a number");
    return static_cast<std::size_t>(*number);
}

/// A text of PDF: UTF-16 with its mark, in hexadecimal.
std::string text_string(std::string_view text) {
    std::string out = "<FEFF";
    for (char32_t p : base::code_points(text)) {
        if (base::is_control(p)) p = ' ';
        if (p < 0x10000)
            out += fmt::format("{:04X}", static_cast<unsigned>(p));
        else
            out += fmt::format("{:04X}{:04X}", 0xD800u + static_cast<unsigned>((p - 0x10000) >> 10),
                               0xDC00u + static_cast<unsigned>((p - 0x10000) & 0x3FF));
    }
    return out + ">";
}

}  // namespace

std::string srgb_profile() {
    const cmsHPROFILE profile = cmsCreate_sRGBProfile();
    if (!profile) throw std::logic_error("print::srgb_profile: no profile");
    cmsSetProfileVersion(profile, 2.1);
    cmsUInt32Number size = 0;
    cmsSaveProfileToMem(profile, nullptr, &size);
    std::string bytes(size, '\0');
    const bool saved = size > 128 && cmsSaveProfileToMem(profile, bytes.data(), &size);
    cmsCloseProfile(profile);
    if (!saved) throw std::logic_error("print::srgb_profile: it could not be written");
    // Bytes 24 to 35 of the header: when it was made. 1 January 2000, the year after the standard.
    constexpr unsigned char made[] = {0x07, 0xD0, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0};
    std::copy(std::begin(made), std::end(made), bytes.begin() + 24);
    return bytes;
}

std::vector<std::uint8_t> with_output_intent(const std::string& pdf, const std::string& title) {
    const auto table = number_after(pdf, "startxref\n", pdf.rfind("startxref"));
    const auto trailer = place_of(pdf, "trailer", table);
    const auto count = number_after(pdf, "/Size", trailer), catalog = number_after(pdf, "/Root", trailer),
               description = number_after(pdf, "/Info", trailer);
    const auto body = place_of(pdf, "\n", place_of(pdf, "\n") + 1) + 1;  // after the header's two lines

    std::vector<std::size_t> offsets(count);
    const std::size_t entries = place_of(pdf, "\n", place_of(pdf, "\n", table) + 1) + 1;
    constexpr std::size_t entry_size = 20;
    const std::string mark = "% foretone\n";
    for (std::size_t i = 1; i < count; ++i) {
        const auto offset = base::number_in(pdf.substr(entries + i * entry_size, 10));
        if (!offset) unlike("a table of its objects");
        offsets[i] = static_cast<std::size_t>(*offset) + mark.size();
    }
    std::string out = pdf.substr(0, body) + mark + pdf.substr(body, table - body);
    const auto date = out.find("/CreationDate (", offsets[description]);
    if (date != std::string::npos) {
        const auto end = place_of(out, ")", date) + 1;
        std::fill(out.begin() + std::ptrdiff_t(date), out.begin() + std::ptrdiff_t(end), ' ');
    }

    const auto pages = number_after(pdf, "/Pages", offsets[catalog] - mark.size());
    const std::string profile = srgb_profile();
    const auto add = [&](std::size_t number, const std::string& content) {
        if (number == offsets.size()) offsets.push_back(0);
        offsets[number] = out.size();
        out += fmt::format("{} 0 obj\n{}\nendobj\n", number, content);
    };
    add(count, fmt::format("<< /N 3 /Length {} >>\nstream\n", profile.size()) + profile + "\nendstream");
    add(catalog, fmt::format("<< /Type /Catalog /Pages {} 0 R\n   /OutputIntents [ << /Type /OutputIntent /S /GTS_PDFA1"
                             "\n      /OutputConditionIdentifier (sRGB IEC61966-2.1) /Info (sRGB IEC61966-2.1)"
                             "\n      /DestOutputProfile {} 0 R >> ]\n   /ViewerPreferences << /PrintScaling /None >>"
                             "\n   /Lang (en) >>",
                             pages, count));
    add(description, "<< /Title " + text_string(title) + "\n   /Creator (foretone)\n   /Producer (cairo) >>");

    const std::size_t at = out.size();
    out += fmt::format("xref\n0 {}\n0000000000 65535 f \n", offsets.size());
    for (std::size_t i = 1; i < offsets.size(); ++i) out += fmt::format("{:010} 00000 n \n", offsets[i]);
    out += fmt::format("trailer\n<< /Size {} /Root {} 0 R /Info {} 0 R >>\nstartxref\n{}\n%%EOF\n", offsets.size(),
                       catalog, description, at);
    return {out.begin(), out.end()};
}

}  // namespace foretone::print
