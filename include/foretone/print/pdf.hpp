#pragma once
/// Laid-out sheets as one PDF file, a page each: what a printer's shop and a client's mail both take.

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "foretone/layout/sheet.hpp"

namespace foretone::print {

/// The paper of all pages, mm.
struct PdfPaper {
    double width_mm = 210, height_mm = 297;
};

/// Everything stands where it stands on the sheet, in the sheet's own colors: areas as areas, text as text in the
/// embedded typeface (it can be searched and copied), pictures pixel for pixel without loss. The file says that its
/// colors are sRGB (an output intent with the profile, ISO 32000-1, 14.11.5), and holds no date: the same sheets are
/// the same bytes. `title` goes into the file's description. Throws std::invalid_argument for no sheets, for a paper
/// that is not 10 to 2000 mm a side, and for a picture that is not of its box's size.
std::vector<std::uint8_t> sheets_pdf(std::span<const layout::Sheet> sheets, const PdfPaper& paper,
                                     const std::string& title);

}  // namespace foretone::print
