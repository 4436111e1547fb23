#pragma once
/// CxF3, the color exchange format of instruments and color programs (ISO 17972-1): XML.

#include "foretone/measure/reading.hpp"

namespace foretone::measure {

/// Reads every object with a reflectance, CIELAB or XYZ; namespaces and the order of elements do not matter. Light,
/// observer and geometry come from the color specification that a value names. Throws Refused: cxf-entities (a document
/// type or entities of its own), cxf-syntax, cxf-empty, cxf-number, and as `read_cgats` for values.
Readings read_cxf(std::string_view text, const Options& stated = {});

}  // namespace foretone::measure
