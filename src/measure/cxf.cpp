// CxF3 as it is taken here:
//
//   CxF / Resources / ObjectCollection / Object (Name, Id, ObjectType)
//     ColorValues / ReflectanceSpectrum (StartWL, ColorSpecification) | ColorCIELab L A B | ColorCIEXYZ X Y Z
//   CxF / Resources / ColorSpecificationCollection / ColorSpecification (Id)
//     TristimulusSpec / Illuminant, Observer · MeasurementSpec / MeasurementType, GeometryChoice, WavelengthRange
//
// A document type is refused before anything is parsed: nothing here needs one, and entities that stand for one another
// are how a small file becomes a huge one. The parser knows the five entities of XML alone. The document is walked by
// its own links, without recursion, whatever its depth.

#include "foretone/measure/cxf.hpp"

#ifndef __EMSCRIPTEN__
#include <pugixml.hpp>
#endif

#include <algorithm>
#include <cmath>
#include <map>

#include "argyll_text.hpp"
#include "foretone/base/number.hpp"
#include "raw.hpp"

namespace foretone::measure {
#ifndef __EMSCRIPTEN__  // the page reads no XML
namespace {

const HowToSay say_in_cxf{"give its ColorSpecification a TristimulusSpec with Illuminant and Observer",
                          "CxF3 holds fractions"};

// The name without its namespace.
std::string_view local(const pugi::xml_node& node) {
    const std::string_view name = node.name();
    const auto colon = name.find(':');
    return colon == std::string_view::npos ? name : name.substr(colon + 1);
}

pugi::xml_node child(const pugi::xml_node& of, std::string_view name) {
    for (const auto& c : of.children())
        if (local(c) == name) return c;
    return {};
}

// The first node of that name below `top`, by the document's own links.
pugi::xml_node below(const pugi::xml_node& top, std::string_view name) {
    pugi::xml_node at = top.first_child();
    while (at) {
        if (local(at) == name) return at;
        if (at.first_child()) {
            at = at.first_child();
            continue;
        }
        while (at && at != top && !at.next_sibling()) at = at.parent();
        if (!at || at == top) return {};
        at = at.next_sibling();
    }
    return {};
}

struct Specification {
    Conditions conditions;
    std::optional<double> start, step;
};

class CxfReader {
public:
    CxfReader(std::string_view text, const Options& stated, Notes& notes)
        : text_(text), stated_(stated), notes_(notes) {}

    void run(Readings& out) {
        const std::string low = lower(text_.substr(0, std::min<std::size_t>(text_.size(), 1 << 16)));
        if (const auto at = low.find("<!doctype"); at != std::string::npos || low.find("<!entity") != std::string::npos)
            throw Refused("cxf-entities", line_at(at == std::string::npos ? low.find("<!entity") : at), 1, "<!DOCTYPE",
                          "the file has a document type with entities of its own; CxF3 needs none: take it out");
        pugi::xml_document document;
        const auto parsed = document.load_buffer(text_.data(), text_.size(), pugi::parse_default, pugi::encoding_utf8);
        if (!parsed)
            throw Refused("cxf-syntax", line_at(static_cast<std::size_t>(parsed.offset)), 1, "",
                          std::string("this is not well-formed XML (") + words_of(parsed.status) +
                              "): the file was cut off or changed; export it again");
        const auto root = document.document_element();
        if (const auto specs = below(root, "ColorSpecificationCollection"))
            for (const auto& s : specs.children()) specification(s);
        const auto objects = below(root, "ObjectCollection");
        std::size_t met = 0;
        for (const auto& object : objects.children()) {
            if (local(object) != "Object") continue;
            if (++met > stated_.most_fields)
                throw Refused("fields-too-many", line_of(object), 1, "", "the file has too many objects");
            one(object);
        }
        if (table_.readings.empty())
            throw Refused("cxf-empty", 1, 1, "",
                          "no object of this CxF file holds a ReflectanceSpectrum, ColorCIELab or ColorCIEXYZ");
        table_.percent = false;
        settle(std::move(table_), stated_, say_in_cxf, notes_, out.readings);
    }

private:
    static const char* words_of(pugi::xml_parse_status status) {
        switch (status) {
            case pugi::status_end_element_mismatch:
                return "a tag is closed by another";
            case pugi::status_bad_attribute:
                return "an attribute is broken";
            case pugi::status_no_document_element:
                return "there is no element";
            default:
                return "a tag is broken";
        }
    }

    std::size_t line_at(std::size_t offset) const {
        const auto end = std::min(offset, text_.size());
        return 1 + static_cast<std::size_t>(
                       std::count(text_.begin(), text_.begin() + static_cast<std::ptrdiff_t>(end), '\n'));
    }

    std::size_t line_of(const pugi::xml_node& node) const {
        return node.offset_debug() < 0 ? 1 : line_at(static_cast<std::size_t>(node.offset_debug()));
    }

    void specification(const pugi::xml_node& s) {
        Specification out;
        const auto condition = [&](const char* key, const pugi::xml_node& node) {
            if (!node) return;
            std::string value = base::replaced(std::string(trimmed(node.child_value(), " \t\r\n")), "_", " ");
            if (!value.empty()) out.conditions.take(key, {value, line_of(node), 1, false}, notes_);
        };
        condition("light", below(s, "Illuminant"));
        condition("observer", below(s, "Observer"));
        condition("measurement_type", below(s, "MeasurementType"));
        condition("measurement_filter", below(s, "DeviceFilter"));
        geometry(s, out.conditions);
        if (const auto range = below(s, "WavelengthRange")) {
            out.start = base::number_in(trimmed(range.attribute("StartWL").value()));
            out.step = base::number_in(trimmed(range.attribute("Increment").value()));
        }
        specifications_[s.attribute("Id").value()] = std::move(out);
    }

    void geometry(const pugi::xml_node& s, Conditions& out) {
        const auto lights = below(s, "IlluminationAngle"), looks = below(s, "MeasurementAngle");
        const auto sphere = below(s, "SphereGeometryConfiguration") ? below(s, "SphereGeometryConfiguration")
                                                                    : below(s, "SphereConfiguration");
        if (lights && looks) {
            const std::string word = std::string(trimmed(lights.child_value(), " \t\r\n")) + "/" +
                                     std::string(trimmed(looks.child_value(), " \t\r\n"));
            out.take("geometry", {word, line_of(lights), 1, false}, notes_);
        } else if (sphere) {
            out.take("geometry", {"d/8 " + std::string(sphere.child_value()), line_of(sphere), 1, false}, notes_);
        }
    }

    double number(const pugi::xml_node& node, const char* what) const {
        const std::string_view text = trimmed(node.child_value(), " \t\r\n");
        const auto v = base::number_in(text);
        if (!node || !v || !std::isfinite(*v))
            throw Refused("cxf-number", node ? line_of(node) : 1, 1, shortened(text),
                          std::string(what) + " is '" + shortened(text) + "', not a number");
        return *v;
    }

    const Specification& named(const pugi::xml_node& value) {
        return specifications_[value.attribute("ColorSpecification").value()];
    }

    void one(const pugi::xml_node& object) {
        const auto values = child(object, "ColorValues");
        RawReading r;
        r.reading.line = line_of(object);
        r.reading.name = object.attribute("Name").value();
        if (r.reading.name.empty()) r.reading.name = object.attribute("Id").value();
        if (r.reading.name.empty()) r.reading.name = std::to_string(table_.readings.size() + 1);
        if (const std::string type = object.attribute("ObjectType").value(); !type.empty())
            r.reading.tags["object_type"] = type;
        for (const auto& v : values.children()) {
            const auto name = local(v);
            if (name == "ReflectanceSpectrum" && r.samples.empty()) spectrum(v, r);
            if (name == "ColorCIELab" && !r.reading.lab) {
                r.reading.lab =
                    color::Lab{number(child(v, "L"), "L"), number(child(v, "A"), "a"), number(child(v, "B"), "b")};
                conditions(v, r);
            }
            if (name == "ColorCIEXYZ" && !r.reading.xyz) {
                r.reading.xyz =
                    color::Xyz{number(child(v, "X"), "X"), number(child(v, "Y"), "Y"), number(child(v, "Z"), "Z")};
                conditions(v, r);
            }
        }
        if (!r.samples.empty() || r.reading.lab || r.reading.xyz) table_.readings.push_back(std::move(r));
    }

    // What a value's specification says; what another of the same object has said stays.
    void conditions(const pugi::xml_node& value, RawReading& r) {
        const auto& said = named(value).conditions;
        if (r.conditions.light.empty()) r.conditions.light = said.light;
        if (r.conditions.observer.empty()) r.conditions.observer = said.observer;
        if (!r.conditions.geometry) r.conditions.geometry = said.geometry;
    }

    void spectrum(const pugi::xml_node& v, RawReading& r) {
        const auto& said = named(v);
        if (!r.conditions.geometry) r.conditions.geometry = said.conditions.geometry;
        const auto own = [&](const char* key, const std::optional<double>& other) {
            const auto read = base::number_in(trimmed(v.attribute(key).value()));
            return read ? read : other;
        };
        const auto start = own("StartWL", said.start), step = own("Increment", said.step);
        if (!start || !(*start >= 200 && *start <= 2500))
            throw Refused("cxf-number", line_of(v), 1, "StartWL",
                          "the spectrum of '" + shortened(r.reading.name) + "' does not say where it starts (StartWL)");
        std::vector<double> list;
        std::string_view text = v.child_value();
        while (true) {
            text = trimmed(text, " \t\r\n,");
            if (text.empty()) break;
            if (list.size() >= 4000)
                throw Refused("fields-too-many", line_of(v), 1, "",
                              "the spectrum of '" + shortened(r.reading.name) + "' has more than 4000 values");
            const auto [value, length, bad] = base::leading_number(text);
            if (length == 0 || bad || !std::isfinite(value)) {
                const auto word = text.substr(0, text.find_first_of(" \t\r\n"));
                throw Refused("cxf-number", line_of(v), 1, shortened(word),
                              "the spectrum of '" + shortened(r.reading.name) + "' holds '" + shortened(word) +
                                  "', not a number");
            }
            list.push_back(value);
            text.remove_prefix(length);
        }
        const double each = step && std::isfinite(*step) ? *step : 10;
        if (!step)
            notes_.add("cxf-step", line_of(v), 1,
                       "the spectrum does not say its step (WavelengthRange Increment); 10 nm was taken");
        const double last = *start + each * (static_cast<double>(list.size()) - 1);
        if (!list.empty() && !(last >= 200 && last <= 2500))
            throw Refused("cxf-range", line_of(v), 1, base::shortest(last),
                          "the spectrum of '" + shortened(r.reading.name) + "' has " + std::to_string(list.size()) +
                              " values in steps of " + base::shortest(each) + " nm: it would end at " +
                              base::shortest(last) + " nm; wavelengths are from 200 to 2500 nm");
        for (std::size_t i = 0; i < list.size(); ++i)
            r.samples.push_back({*start + each * static_cast<double>(i), list[i], line_of(v), 1, false});
    }

    std::string_view text_;
    const Options& stated_;
    Notes& notes_;
    std::map<std::string, Specification> specifications_;
    RawTable table_;
};

}  // namespace
#endif

bool is_cxf(const Lines& lines) {
    std::size_t looked = 0;
    bool xml = false;
    for (const auto& line : lines.list) {
        const auto text = trimmed(line.text);
        if (text.empty()) continue;
        if (looked == 0) xml = text.front() == '<';
        if (!xml) return false;
        if (lower(text).find("cxf") != std::string::npos) return true;
        if (++looked > 50) break;
    }
    return false;
}

Readings read_cxf(std::string_view text, const Options& stated) {
    Notes notes;
    Lines lines;
    clean(text, stated, notes, lines);
    std::string whole;
    for (const auto& line : lines.list) whole.append(line.text).append("\n");
    Readings out{"CxF3", {}, {}, {}};
#ifdef __EMSCRIPTEN__
    throw Refused("cxf-here", 1, 1, "CxF3", "the page does not read CxF3; the command line does");
#else
    CxfReader(whole, stated, notes).run(out);
#endif
    out.notes = notes.list();
    return out;
}

}  // namespace foretone::measure
