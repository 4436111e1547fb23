#include "material_table.hpp"

#include <algorithm>
#include <limits>
#include <set>

#include "foretone/base/number.hpp"
#include "foretone/material/ageing.hpp"
#include "foretone/material/companions.hpp"
#include "foretone/material/figures.hpp"
#include "foretone/scene/material_file.hpp"
#include "foretone/scene/readings.hpp"

namespace foretone::scene {
namespace {
using material::Binder;
using material::Figure;
using material::FigureAt;
using material::Material;
using material::Provenance;
using material::SpectrumFigure;

constexpr double any = std::numeric_limits<double>::max();

const std::vector<std::string>& mark_words() {
    static const std::vector<std::string> words = {"measured", "published", "computed", "fitted",
                                                   "practice", "stated",    "memory"};
    return words;
}

std::vector<std::string> kind_words() {
    std::vector<std::string> out;
    for (const auto& row : material::kinds()) out.emplace_back(row.word);
    return out;
}

const toml::node* find(const toml::table& table, const std::string& key) {
    const auto dot = key.find('.');
    if (dot == std::string::npos) return table.get(key);
    const auto* sub = table.get(key.substr(0, dot));
    return sub && sub->is_table() ? sub->as_table()->get(key.substr(dot + 1)) : nullptr;
}

class MaterialReader {
public:
    MaterialReader(const Keys& keys, const std::string& id, const Library* library, const std::filesystem::path& folder,
                   std::vector<Problem>* notes)
        : keys_(keys), library_(library), folder_(folder), notes_(notes) {
        m_.id = id;
    }

    Material read() {
        const auto kind = keys_.choice("kind", kind_words());
        if (!keys_.has("kind")) keys_.fault("key-missing", keys_.here(), "kind is missing" + meant_as_kind());
        if (!kind) return std::move(m_);
        m_.kind = *material::kind_from(*kind);
        m_.data = material::blank(m_.kind);
        if (library_)
            start_from_library();
        else if (keys_.integer("format", 1, 1); !keys_.has("format"))
            keys_.fault("key-missing", keys_.here(), "format = 1 is missing");
        m_.name = keys_.text("name").value_or(library_ ? m_.id : "");
        if (m_.name.empty()) keys_.fault("key-missing", keys_.here(), "name is missing");
        if (const auto note = keys_.text("note")) m_.note = *note;
        read_figures();
        read_words();
        return std::move(m_);
    }

private:
    std::string meant_as_kind() const {
        for (const auto& [key, node] : keys_.table())
            if (!nearest("kind", {std::string(key.str())}, 1).empty() && !keys_.table()[key].is_table() &&
                key.str() != "like")
                return "; '" + std::string(key.str()).substr(0, 60) + "' stands there: write kind";
        return ": " + either(kind_words());
    }

    std::string usual_one() const {
        const std::string usual(facts(m_.kind).like);
        return usual.empty() ? "" : " The usual one is '" + usual + "'; 'foretone materials' lists all.";
    }

    void start_from_library() {
        std::string like = keys_.text("like").value_or(std::string(facts(m_.kind).like));
        if (like.empty()) return;
        const auto* entry = library_->find(like);
        if (!entry || entry->kind != m_.kind) {
            if (!keys_.has("like")) return;
            keys_.fault("material-unknown", keys_.place_of(*keys_.table().get("like")),
                        "there is no " + std::string(word(m_.kind)) + " '" + like + "' to be like." +
                            suggestion(like, library_->ids(m_.kind)) + usual_one());
            const auto near = nearest(like, library_->ids(m_.kind), 1);  // read on: one fault, not one for each figure
            like = near.empty() ? std::string(facts(m_.kind).like) : near.front();
            entry = library_->find(like);
            if (!entry || entry->kind != m_.kind) return;
        }
        const std::string id = m_.id;
        m_ = library_->material(like);
        m_.id = id;
        m_.note.clear();
        like_ = like;
        for (const auto& f : material::figures(m_)) known_.insert(f.key);
        // A color given one way replaces a color known the other way; so does a build.
        const auto replaces = [&](std::initializer_list<const char*> given, std::initializer_list<const char*> gone) {
            if (std::any_of(given.begin(), given.end(), [&](const char* k) { return keys_.has(k); }))
                for (const char* k : gone) known_.erase(k);
        };
        replaces({"gardner"}, {"absorption_per_mm"});
        replaces({"absorption_per_mm"}, {"gardner", "gardner_solids_volume_percent"});
        replaces({"solids_volume_percent"}, {"resin_density_g_per_ml", "cut_lb"});
        replaces({"resin_density_g_per_ml"}, {"solids_volume_percent", "density_g_per_ml"});
    }

    void read_figures() {
        std::vector<std::string> allowed = {"format", "kind", "name", "note"};
        if (library_) allowed.push_back("like");
        std::string taken;
        for (const auto& at : material::all_figures(m_)) {
            if (at.key.starts_with("grain.")) continue;  // read_grain's
            allowed.push_back(at.key.substr(0, at.key.find('.')));
            if (const auto* node = find(keys_.table(), at.key)) {
                if (at.figure ? read_figure(keys_, *node, at, library_ != nullptr, *at.figure) : read_curve(*node, at))
                    known_.insert(at.key);
            } else if (known_.count(at.key)) {
                if (at.optical) taken += (taken.empty() ? "" : ", ") + at.key;
            } else if (!at.may_lack) {
                keys_.fault("key-missing", keys_.here(), m_.id + ": " + at.key + " is missing");
            }
        }
        if (auto* wood = std::get_if<material::Wood>(&m_.data)) {
            allowed.push_back("grain");
            allowed.push_back("ages_as");
            if (!read_wood_grain(*wood)) taken += (taken.empty() ? "" : ", ") + std::string("grain");
        }
        if (library_ && !taken.empty()) m_.note += m_.id + ": taken from " + like_ + ": " + taken;
        resolve_gardner();
        material::keep_figures(m_, known_);
        if (const auto* b = std::get_if<Binder>(&m_.data)) check_binder(*b);
        note_companions();
        for (const char* key : {"carriers", "carrier", "mix", "order", "binder", "needs", "leaves", "neutralize"})
            allowed.push_back(key);
        keys_.only(allowed);
    }

    // False if some of the grain is another wood's.
    bool read_wood_grain(material::Wood& wood) {
        const auto* table = keys_.sub("grain");
        if (!table) return !wood.grain;
        return read_grain(Keys(*table, keys_.file(), "[grain] of " + m_.id, keys_.problems()), library_ != nullptr,
                          wood.grain);
    }

    bool read_curve(const toml::node& node, const FigureAt& at) {
        if (library_ && node.is_string()) return read_curve_file(node, at);
        const auto* table = node.as_table();
        if (!table) {
            keys_.fault("value-type", keys_.place_of(node),
                        at.key + " must be a table with start_nm, step_nm, values, sd, mark, source");
            return false;
        }
        const Keys curve(*table, keys_.file(), at.key, keys_.problems());
        if (at.key == "reflectance") {
            if (const auto g = curve.choice("geometry", geometry_words()))
                std::get<material::Wood>(m_.data).geometry = geometry_from(*g);
            else if (!like_.empty() && !curve.has("geometry"))
                note_geometry();
        }
        return read_spectrum(curve, at.key, at.low, at.high, library_ != nullptr, *at.spectrum);
    }

    bool read_curve_file(const toml::node& node, const FigureAt& at) {
        const auto path = folder_ / *node.value_exact<std::string>();
        try {
            const auto one = read_one_reflectance(path, *library_);
            const auto grid = spectral::to_grid(one.reflectance);
            if (one.geometry && at.key == "reflectance") std::get<material::Wood>(m_.data).geometry = *one.geometry;
            if (!one.geometry && at.key == "reflectance" && !like_.empty()) note_geometry();
            std::string source = "read from " + path.filename().string();
            for (const auto& n : one.notes) source += "; " + n.text;
            *at.spectrum = {grid.spectrum,  0, {material::Mark::stated, source}, grid.resampled, grid.held_below,
                            grid.held_above};
            return true;
        } catch (const InputError& e) {
            for (const auto& p : e.problems) keys_.fault(p.id, p.place, p.text);
            return false;
        }
    }

    // A color number says nothing without the solids of the liquid it was read on: what they are taken to be is told.
    void resolve_gardner() {
        auto* b = std::get_if<Binder>(&m_.data);
        if (!b || !library_ || !keys_.has("gardner") || keys_.has("gardner_solids_volume_percent")) return;
        const std::string solids = "gardner_solids_volume_percent";
        const bool stated = keys_.has("solids_volume_percent") && known_.count("solids_volume_percent");
        if (stated || (!known_.count(solids) && known_.count("solids_volume_percent"))) {
            b->gardner_solids_volume_percent = b->solids_volume_percent;
            known_.insert(solids);
            tell("gardner is taken to be that of the liquid as supplied, of " +
                 base::shortest(b->solids_volume_percent->value) + " % solids by volume; " + solids +
                 " says otherwise");
        } else if (!known_.count(solids)) {
            keys_.fault(
                "figure-companion", keys_.place_of("gardner"),
                m_.id + ": gardner needs " + solids +
                    ": the share of binder, by volume, in the liquid that the number was read on (a 20 % shellac "
                    "solution has about 14.6, an oil 100)");
        }
    }

    // One of two figures that go together was stated, the other is another material's.
    void note_companions() {
        if (like_.empty()) return;
        for (const auto& pair : material::companions(m_.data)) {
            const std::string key(pair.key), with(pair.with);
            if (!keys_.has(key) || keys_.has(with) || noted_.count(with) || !known(with)) continue;
            tell(key + " is stated, " + with + " is that of " + like_ + " (" + std::string(pair.why) +
                 "): state both if they belong together");
            noted_.insert(with);
        }
    }

    void note_geometry() {
        tell("reflectance is stated without its geometry: " +
             geometry_word(std::get<material::Wood>(m_.data).geometry) + ", that of " + like_ + ", is taken");
    }

    bool known(const std::string& key) const {
        const auto at = known_.lower_bound(key);
        return at != known_.end() && (*at == key || at->starts_with(key + "."));
    }

    void tell(const std::string& text) {
        if (notes_) notes_->push_back({"figure-companion", keys_.here(), m_.id + ": " + text});
        if (text.starts_with("gardner")) noted_.insert("gardner_solids_volume_percent");
    }

    void check_binder(const Binder& b) {
        if (!b.gardner && !b.absorption_per_mm)
            keys_.fault("key-missing", keys_.here(),
                        m_.id + ": its color is missing: gardner, or a table absorption_per_mm");
        if (!b.solids_volume_percent && !b.resin_density_g_per_ml)
            keys_.fault("key-missing", keys_.here(),
                        m_.id + ": solids_volume_percent (or resin_density_g_per_ml and cut_lb) is missing");
    }

    void read_words() {
        if (auto* wood = std::get_if<material::Wood>(&m_.data)) {
            std::vector<std::string> classes;
            for (const auto& c : material::wood_classes()) classes.emplace_back(c.word);
            if (const auto c = keys_.choice("ages_as", classes)) wood->ages_as = *c;
        }
        if (auto* dye = std::get_if<material::Dye>(&m_.data)) {
            if (const auto c = keys_.texts("carriers")) dye->carriers = *c;
            if (dye->carriers.empty())
                keys_.fault("key-missing", keys_.here(), m_.id + ": carriers (what dissolves it) is missing");
        }
        if (auto* binder = std::get_if<Binder>(&m_.data))
            if (const auto c = keys_.text("carrier")) binder->carrier = *c;
        if (auto* stock = std::get_if<material::Stock>(&m_.data)) read_loads(stock->carrier, stock->mix, true);
        if (auto* colored = std::get_if<material::Colored>(&m_.data)) {
            read_loads(colored->carrier, colored->mix, false);
            if (const auto b = keys_.text("binder")) colored->binder = *b;
            if (colored->binder.empty())
                keys_.fault("key-missing", keys_.here(), m_.id + ": binder (the oil, film or wax in it) is missing");
        }
        if (auto* treatment = std::get_if<material::Treatment>(&m_.data)) read_treatment(*treatment);
        if (const auto* order = keys_.sub("order"))
            read_order(Keys(*order, keys_.file(), "[order] of " + m_.id, keys_.problems()), library_ != nullptr,
                       m_.order);
    }

    void read_treatment(material::Treatment& t) {
        if (const auto c = keys_.text("carrier")) t.carrier = *c;
        if (const auto n = keys_.text("neutralize")) t.neutralize = *n;
        const std::vector<std::string> needs = {"nothing", "tannin", "dye", "iron"};
        if (const auto n = keys_.choice("needs", needs))
            t.needs = static_cast<material::Needs>(std::find(needs.begin(), needs.end(), *n) - needs.begin());
        if (keys_.choice("leaves", {"iron"})) t.leaves_iron = true;
        if (t.needs == material::Needs::tannin && !t.half_tannin_percent)
            keys_.fault(
                "key-missing", keys_.here(),
                m_.id + ": what needs tannin says of how much: half_tannin_percent, at which half of it reacts");
    }

    // What a stock or a ready colored coat holds.
    void read_loads(std::string& carrier, std::vector<material::Load>& mix, bool always) {
        if (const auto c = keys_.text("carrier")) carrier = *c;
        if (carrier.empty()) keys_.fault("key-missing", keys_.here(), m_.id + ": carrier is missing");
        const auto* list = keys_.table()["mix"].as_array();
        if (!always && !list && !mix.empty() && !keys_.has("mix")) return;  // those of the one that this is like
        if (!list || list->empty()) {
            keys_.fault("key-missing", keys_.here(), m_.id + ": mix = [ { use = \"dye\", g_per_l = 10 } ] is missing");
            return;
        }
        mix.clear();  // of one that this is like
        for (const auto& item : *list) {
            const auto* table = item.as_table();
            if (!table) {
                keys_.fault("value-type", keys_.place_of(item),
                            "each part of a stock is { use = \"dye\", g_per_l = number }");
                continue;
            }
            const Keys part(*table, keys_.file(), "a part of a stock", keys_.problems());
            part.only({"use", "g_per_l"});
            const auto use = part.text("use");
            const auto load = part.number("g_per_l", 1e-6, 1000, "g/L");
            if (use && load)
                mix.push_back({*use, *load});
            else if (!part.has("use") || !part.has("g_per_l"))
                part.fault("key-missing", part.here(), "a part of a stock needs use and g_per_l");
        }
    }

    const Keys& keys_;
    const Library* library_;
    std::filesystem::path folder_;
    Material m_;
    std::vector<Problem>* notes_;
    std::string like_;
    std::set<std::string> known_;
    std::set<std::string> noted_;  // companions already told of
};

}  // namespace

Provenance read_provenance(const Keys& keys, const std::string& what, bool in_scene) {
    Provenance p;
    if (const auto mark = keys.choice("mark", mark_words()))
        p.mark = *material::mark_from(*mark);
    else if (!keys.has("mark") && !in_scene)
        keys.fault("provenance-missing", keys.here(), what + " has no mark (where does it come from?)");
    if (const auto source = keys.text("source")) p.source = *source;
    if (p.source.empty()) {
        if (in_scene)
            p.source = "stated in the scene";
        else
            keys.fault("provenance-missing", keys.here(), what + " has no source");
    }
    return p;
}

bool read_figure(const Keys& keys, const toml::node& node, const FigureAt& at, bool in_scene, Figure& out) {
    if (const auto* table = node.as_table()) {
        const Keys figure(*table, keys.file(), "the figure " + at.key, keys.problems());
        figure.only({"value", "sd", "mark", "source"});
        const auto* given = table->get("value");
        const auto value = given ? figure.number_at(*given, at.key, at.low, at.high, at.unit) : std::nullopt;
        if (!given) keys.fault("key-missing", figure.here(), at.key + " has no value");
        const auto sd = figure.number("sd", 0, any);
        if (!figure.has("sd") && !in_scene)
            keys.fault("key-missing", figure.here(), at.key + " has no sd (one standard deviation)");
        out = {value.value_or(0), sd.value_or(0), read_provenance(figure, at.key, in_scene)};
        return value.has_value();
    }
    if (!in_scene) {
        keys.fault("provenance-missing", keys.place_of(node),
                   at.key + " must say where it comes from: { value = , sd = , mark = , source = }");
        return false;
    }
    const auto value = keys.number_at(node, at.key, at.low, at.high, at.unit);
    out = {value.value_or(0), 0, {material::Mark::stated, "stated in the scene"}};
    return value.has_value();
}

bool read_spectrum(const Keys& keys, const std::string& what, double low, double high, bool in_scene,
                   SpectrumFigure& out) {
    keys.only({"start_nm", "step_nm", "values", "sd", "mark", "source", "geometry"});
    const auto start = keys.number("start_nm", 200, 800, "nm");
    const auto step = keys.number("step_nm", 0.1, 20, "nm");
    const auto values = keys.numbers("values");
    for (const char* key : {"start_nm", "step_nm", "values"})
        if (!keys.has(key)) keys.fault("key-missing", keys.here(), what + ": " + key + " is missing");
    if (!start || !step || !values) return false;
    if (values->size() < 2) {
        keys.fault("spectrum-short", keys.place_of("values"), what + ": at least two values are needed");
        return false;
    }
    const auto& nodes = *keys.table()["values"].as_array();
    for (std::size_t i = 0; i < values->size(); ++i)
        if (!keys.number_at(nodes[i], what + " at " + base::shortest(*start + *step * static_cast<double>(i)) + " nm",
                            low, high, ""))
            return false;
    const auto sampled = spectral::Sampled::regular(*start, *step, *values);
    if (sampled.first_nm() > 400 || sampled.last_nm() < 700) {
        keys.fault("spectrum-range-nm", keys.place_of("start_nm"),
                   what + " runs from " + base::shortest(sampled.first_nm()) + " to " +
                       base::shortest(sampled.last_nm()) + " nm; at least 400 to 700 nm is needed");
        return false;
    }
    const auto grid = spectral::to_grid(sampled);
    const auto sd = keys.number("sd", 0, 2);
    if (!keys.has("sd") && !in_scene)
        keys.fault("key-missing", keys.here(), what + " has no sd (relative, of its level)");
    out = {grid.spectrum,  sd.value_or(0),  read_provenance(keys, what, in_scene),
           grid.resampled, grid.held_below, grid.held_above};
    return true;
}

std::vector<std::string> geometry_words() { return {"45/0", "d/8-included", "d/8-excluded"}; }

optics::Geometry geometry_from(const std::string& word) {
    if (word == "45/0") return optics::Geometry::g45_0;
    return word == "d/8-included" ? optics::Geometry::d8_included : optics::Geometry::d8_excluded;
}

std::string geometry_word(optics::Geometry g) { return geometry_words()[static_cast<std::size_t>(g)]; }

Material read_material(const Keys& keys, const std::string& id, const Library* library,
                       const std::filesystem::path& folder, std::vector<Problem>* notes) {
    return MaterialReader(keys, id, library, folder, notes).read();
}

Material read_material_file(std::string_view text, const std::string& file, const std::string& id, Problems& problems) {
    const auto table = parse_toml(text, file);
    return read_material(Keys(table, file, "a material file", problems), id);
}

}  // namespace foretone::scene
