#include "foretone/scene/stack_file.hpp"

#include <limits>
#include <nlohmann/json.hpp>

#include "foretone/base/number.hpp"
#include "foretone/scene/text_file.hpp"
#include "toml_keys.hpp"

namespace foretone::scene {
namespace {

constexpr std::size_t most_wavelengths = 10000;
constexpr std::size_t most_layers = 200, most_cells = 100'000;  // layers, and layers times wavelengths
constexpr double largest = 1e7;  // 1/mm: beyond any optical depth of 1e4 in a layer of a micrometre

class StackReader {
public:
    explicit StackReader(const Keys& root) : root_(root) {}

    StackFile read() {
        root_.only({"wavelengths_nm", "start_nm", "end_nm", "step_nm", "light", "layer", "base"});
        read_wavelengths();
        out_.stack.wavelengths = out_.wavelengths_nm.size();
        read_light();
        read_layers();
        read_base();
        return std::move(out_);
    }

private:
    Keys keys(const toml::table& t, std::string what) const {
        return Keys(t, root_.file(), std::move(what), root_.problems());
    }

    void read_wavelengths() {
        if (root_.has("wavelengths_nm")) {
            if (const auto list = root_.numbers("wavelengths_nm")) out_.wavelengths_nm = *list;
            for (std::size_t i = 1; i < out_.wavelengths_nm.size(); ++i)
                if (!(out_.wavelengths_nm[i] > out_.wavelengths_nm[i - 1])) {
                    root_.fault("spectrum-order", root_.place_of("wavelengths_nm"),
                                "wavelengths_nm must rise: " + base::shortest(out_.wavelengths_nm[i]) + " follows " +
                                    base::shortest(out_.wavelengths_nm[i - 1]));
                    break;
                }
            if (out_.wavelengths_nm.empty())
                root_.fault("value-empty", root_.place_of("wavelengths_nm"), "wavelengths_nm is empty");
            return;
        }
        const auto start = root_.number("start_nm", 100, 100000, "nm"), end = root_.number("end_nm", 100, 100000, "nm");
        const auto step = root_.number("step_nm", 0.01, 10000, "nm");
        if (!start || !end || !step) {
            if (!root_.has("start_nm") || !root_.has("end_nm") || !root_.has("step_nm"))
                root_.fault("key-missing", {root_.file(), 1, 1},
                            "the wavelengths are missing: wavelengths_nm = [550], or start_nm, end_nm and step_nm");
            return;
        }
        const double count = (*end - *start) / *step;
        if (!(count >= 0) || count >= static_cast<double>(most_wavelengths)) {
            root_.fault("value-range", root_.place_of("start_nm"),
                        "start_nm, end_nm and step_nm make no list of 1 to 10000 wavelengths");
            return;
        }
        for (std::size_t i = 0; static_cast<double>(i) <= count + 1e-9; ++i)
            out_.wavelengths_nm.push_back(*start + static_cast<double>(i) * *step);
    }

    void read_light() {
        const auto* table = root_.sub("light");
        if (!table) return;
        const auto light = keys(*table, "[light]");
        light.only({"angle_deg", "diffuse"});
        if (light.has("angle_deg") && light.has("diffuse"))
            light.fault("key-conflict", light.here(), "[light] has either angle_deg or diffuse = true");
        if (const auto angle = light.number("angle_deg", 0, 89.9, "degrees")) out_.light.angle_deg = *angle;
        if (const auto* d = table->get("diffuse")) {
            const auto v = d->value_exact<bool>();
            if (!v) light.fault("value-type", light.place_of(*d), "diffuse must be true or false");
            out_.light.diffuse = v.value_or(false);
        }
    }

    // A constant, or a list as long as the wavelengths.
    std::vector<double> coefficient(const Keys& from, const std::string& key, double high) {
        const auto* node = from.table().get(key);
        if (!node) return {};
        const std::size_t count = out_.wavelengths_nm.size();
        const auto* list = node->as_array();
        if (!list) {
            const auto v = from.number(key, 0, high);
            return std::vector<double>(count, v.value_or(0));
        }
        if (list->size() != count) {
            from.fault(
                "array-length", from.place_of(*node),
                key + " has " + std::to_string(list->size()) + " values for " + std::to_string(count) + " wavelengths");
            return std::vector<double>(count, 0);
        }
        std::vector<double> out;
        for (std::size_t i = 0; i < count; ++i)
            out.push_back(
                from.number_at((*list)[i], key + " at " + base::shortest(out_.wavelengths_nm[i]) + " nm", 0, high, "")
                    .value_or(0));
        return out;
    }

    void read_layers() {
        const auto* node = root_.table().get("layer");
        if (!node) return;
        const auto* list = node->as_array();
        if (!list) {
            root_.fault("value-type", root_.place_of(*node), "a layer is a table: [[layer]]");
            return;
        }
        if (list->size() > most_layers || list->size() * out_.wavelengths_nm.size() > most_cells) {
            root_.fault("stack-large", root_.place_of(*node),
                        std::to_string(list->size()) + " layers at " + std::to_string(out_.wavelengths_nm.size()) +
                            " wavelengths; at most " + std::to_string(most_layers) + " layers, and " +
                            std::to_string(most_cells) + " of both multiplied: give fewer [[layer]] or wavelengths_nm");
            return;
        }
        for (const auto& item : *list) {
            const auto* table = item.as_table();
            if (table)
                read_layer(keys(*table, "[[layer]]"), &item == &list->back());
            else
                root_.fault("value-type", root_.place_of(item), "a layer is a table: [[layer]]");
        }
    }

    void read_layer(const Keys& layer, bool last) {
        layer.only({"n", "absorption_per_mm", "scattering_per_mm", "albedo", "anisotropy", "thickness_mm"});
        optics::Layer out;
        for (const char* key : {"n", "thickness_mm"})
            if (!layer.has(key)) layer.fault("key-missing", layer.here(), std::string("[[layer]] needs ") + key);
        if (const auto n = layer.number("n", 1, 3)) out.n = *n;
        if (layer.has("albedo"))
            layer.fault("key-conflict", layer.place_of("albedo"),
                        "a layer is said by absorption_per_mm and scattering_per_mm; an albedo above 1 (negative "
                        "absorption) does not exist");
        read_thickness(layer, last, out);
        out.absorption_per_mm = coefficient(layer, "absorption_per_mm", largest);
        out.scattering_per_mm = coefficient(layer, "scattering_per_mm", largest);
        if (out.absorption_per_mm.empty()) out.absorption_per_mm.assign(out_.wavelengths_nm.size(), 0);
        out.anisotropy = layer.number("anisotropy", -0.99, 0.99).value_or(0);
        out_.stack.layers.push_back(std::move(out));
    }

    void read_thickness(const Keys& layer, bool last, optics::Layer& out) {
        const auto* node = layer.table().get("thickness_mm");
        if (!node) return;
        const auto v = node->value<double>();
        if (v && *v == std::numeric_limits<double>::infinity()) {
            if (!last)
                layer.fault("half-space-above", layer.place_of(*node),
                            "a half-space (thickness inf) can only be the last layer");
            out.thickness_mm = *v;
            return;
        }
        out.thickness_mm = layer.number("thickness_mm", 1e-9, 1e6, "mm").value_or(1);
    }

    void read_base() {
        auto& base = out_.stack.base;
        const auto* table = root_.sub("base");
        if (!table) {
            base.kind = optics::Base::Kind::open;
            if (out_.stack.layers.empty() && !root_.has("base"))
                root_.fault("key-missing", {root_.file(), 1, 1},
                            "there is nothing here: add [[layer]] tables or a [base]");
            return;
        }
        const auto keys_of = keys(*table, "[base]");
        keys_of.only({"reflectance", "black", "open"});
        if (keys_of.has("reflectance") + keys_of.has("black") + keys_of.has("open") != 1) {
            keys_of.fault("key-conflict", keys_of.here(),
                          "[base] is one of reflectance = 0.5, black = true, open = true");
            return;
        }
        for (const char* key : {"black", "open"})
            if (const auto* node = table->get(key); node && node->value_exact<bool>() != true)
                keys_of.fault("value-type", keys_of.place_of(*node), std::string(key) + " can only be true");
        base.kind = keys_of.has("black")  ? optics::Base::Kind::black
                    : keys_of.has("open") ? optics::Base::Kind::open
                                          : optics::Base::Kind::lambertian;
        base.reflectance = coefficient(keys_of, "reflectance", 1);
    }

    const Keys& root_;
    StackFile out_;
};

}  // namespace

StackFile read_stack_text(const std::string& text, const std::string& file) {
    const auto table = parse_toml(text, file);
    Problems problems;
    const Keys root(table, file, "the stack", problems);
    auto out = StackReader(root).read();
    problems.raise();
    try {
        optics::check(out.stack);
    } catch (const std::invalid_argument& e) {
        throw InputError("stack", {file}, e.what());
    }
    return out;
}

StackFile read_stack(const std::filesystem::path& file) { return read_stack_text(read_text(file), file.string()); }

}  // namespace foretone::scene
