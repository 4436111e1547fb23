#include <algorithm>
#include <set>

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/base/utf8.hpp"
#include "foretone/material/relevel.hpp"
#include "foretone/scene/readings.hpp"
#include "foretone/scene/scene.hpp"
#include "foretone/scene/text_file.hpp"
#include "foretone/schedule/suction.hpp"
#include "ageing_keys.hpp"
#include "data_sheet.hpp"
#include "material_table.hpp"
#include "own_materials.hpp"
#include "price_table.hpp"
#include "search_table.hpp"
#include "step_table.hpp"
#include "target_reading.hpp"
#include "wood_shapes.hpp"
#include "written_units.hpp"

namespace foretone::scene {
namespace {
using material::Material;

constexpr std::size_t most_finishes = 100, most_steps = 40, most_lights = 8;  // seconds to work out, not hours
constexpr double own_board_sd = 0.05;  // common practice: one board varies by about 2 ΔE*ab along itself

class SceneReader {
public:
    SceneReader(const toml::table& root, const std::string& file, const std::filesystem::path& folder,
                const Library& library)
        : root_(root, file, "the scene", problems_), folder_(folder), library_(library) {
        scene_.file = file;
    }

    Scene read() {
        root_.only({"format", "title", "notes", "look", "wood", "finish", "material", "materials", "target", "search",
                    "prices", "lesson"});
        if (!root_.has("format"))
            root_.fault("key-missing", {root_.file(), 1, 1}, "format = 1 is missing");
        else
            root_.integer("format", 1, 1);
        scene_.title = root_.text("title").value_or(std::filesystem::path(root_.file()).stem().string());
        read_notes();
        scene_.written_in = written_units(root_.table());
        read_look();
        read_materials();
        read_wood();
        read_finishes();
        read_target();
        const bool judged_old = scene_.target && scene_.target->judge_at;
        if (const auto text = will_darken(scene_.materials); !text.empty() && !judged_old)
            warn("wood-fresh", root_.place_of("wood"), text);
        read_search();
        if (const auto* prices = root_.sub("prices")) scene_.prices = read_prices(keys(*prices, "[prices]"));
        read_lesson();
        problems_.raise();
        return std::move(scene_);
    }

private:
    Keys keys(const toml::table& table, std::string what) {
        return Keys(table, root_.file(), std::move(what), problems_);
    }

    void warn(std::string id, Place place, std::string text) {
        scene_.warnings.push_back({std::move(id), std::move(place), std::move(text)});
    }

    // What it throws joins the problems, placed where the scene asked for it if it has no place of its own.
    template <class F>
    void guarded(const Place& asked, F&& f) {
        try {
            f();
        } catch (const InputError& e) {
            for (const auto& p : e.problems) problems_.add(p.id, p.place.file == "library" ? asked : p.place, p.text);
        }
    }

    // The light as the library finds it: a lamp's file lies beside the scene. Empty, and told, if there is none.
    std::string known_light(const std::string& id, const Place& place) {
        const std::string found = id.ends_with(".csv") ? (folder_ / id).string() : id;
        std::string out;
        guarded(place, [&] {
            library_.illuminant(found);
            out = found;
        });
        return out;
    }

    // They stand small on papers of one page: a page of them is too much.
    void read_notes() {
        scene_.notes = base::trimmed(root_.text("notes").value_or(""), " \t\r\n");
        if (const auto count = base::code_points(scene_.notes).size(); count > longest_notes)
            root_.fault("text-long", root_.place_of("notes"),
                        "notes has " + std::to_string(count) + " characters; at most " + std::to_string(longest_notes) +
                            " are read");
    }

    void read_lesson() {
        const auto* table = root_.sub("lesson");
        if (!table) return;
        const auto lesson = keys(*table, "[lesson]");
        lesson.only({"question"});
        scene_.lesson = lesson.text("question").value_or("");
    }

    void read_look() {
        const auto* table = root_.sub("look");
        if (!table) return;
        const auto look = keys(*table, "[look]");
        look.only({"lights", "observer", "geometry", "units", "after", "exposure"});
        if (const auto lights = look.texts("lights")) {
            scene_.look.lights.clear();
            const auto* nodes = (*table)["lights"].as_array();
            auto& out = scene_.look.lights;
            if (nodes->size() > most_lights)
                look.fault("lights-many", look.place_of((*nodes)[most_lights]),
                           "there are " + std::to_string(nodes->size()) + " lights; at most " +
                               std::to_string(most_lights) + " go into one look: leave out the others");
            for (std::size_t i = 0; i < std::min({lights->size(), nodes->size(), most_lights}); ++i) {
                const auto id = known_light((*lights)[i], look.place_of((*nodes)[i]));
                if (!id.empty() && std::find(out.begin(), out.end(), id) == out.end()) out.push_back(id);
            }
            if (nodes->empty())
                look.fault("value-empty", look.place_of("lights"),
                           "lights is empty; name at least one." + suggestion("", library_.lights()));
        }
        if (const auto o = look.choice("observer", library_.observers())) scene_.look.observer = *o;
        if (const auto g = look.choice("geometry", geometry_words())) scene_.look.geometry = geometry_from(*g);
        if (const auto u = look.choice("units", {"metric", "us"}))
            scene_.look.units = *u == "us" ? schedule::UnitSystem::us : schedule::UnitSystem::metric;
        read_ageing(look, scene_.look, scene_.warnings);
    }

    void read_materials() {
        read_own_materials(
            root_, folder_, library_, scene_.materials, scene_.fits,
            [&](Problem p) { scene_.warnings.push_back(std::move(p)); }, &scene_.cans);
    }

    // Puts a library material, and what it is made of, among the materials.
    void take(const std::string& id, const Place& place) {
        take_material(id, place, library_, scene_.materials, problems_);
    }

    void read_wood() {
        const auto* table = root_.sub("wood");
        if (!table) {
            if (!root_.has("wood"))
                problems_.add("key-missing", {root_.file(), 1, 1},
                              "[wood] is missing: use = \"...\", reflectance = \"file.csv\" or lab = [L, a, b]");
            return;
        }
        const auto wood = keys(*table, "[wood]");
        const bool by_lab = wood.has("lab"), by_file = wood.has("reflectance");
        if (wood.has("use") + by_lab + by_file != 1) {
            wood.fault(
                wood.has("use") || by_lab || by_file ? "key-conflict" : "key-missing", wood.here(),
                "[wood] is said in exactly one way: use = \"...\", reflectance = \"file.csv\" or lab = [L, a, b]");
            return;
        }
        if (!by_lab && !by_file) {
            wood.only({"use", "grit", "same_board"});
            if (const auto same = wood.truth("same_board")) scene_.same_board = *same;
            if (const auto use = wood.text("use")) {
                const auto place = wood.place_of(*table->get("use"));
                take(*use, place);
                scene_.wood = *use;
                const auto it = scene_.materials.find(*use);
                if (it != scene_.materials.end() && it->second.kind != material::Kind::wood)
                    wood.fault("material-kind", place,
                               "'" + *use + "' is a " + std::string(word(it->second.kind)) + ", not a wood." +
                                   suggestion(*use, library_.ids(material::Kind::wood)));
            }
        } else {
            read_measured_wood(wood, by_lab);
        }
        read_grit(wood);
    }

    void read_grit(const Keys& wood) {
        const auto grit = wood.number("grit", schedule::least_grit, schedule::most_grit, "grit");
        const auto it = scene_.materials.find(scene_.wood);
        if (!grit || it == scene_.materials.end()) return;
        if (auto* data = std::get_if<material::Wood>(&it->second.data)) data->grit = *grit;
    }

    // What was read of a board: a curve, or a color under a light.
    struct BoardReading {
        OneReading one;
        Place place;
        std::string source;
        color::Weights weights{};
    };

    void read_measured_wood(const Keys& wood, bool by_lab) {
        wood.only({"lab", "reflectance", "sample", "like", "light", "observer", "geometry", "name", "grit"});
        if (by_lab && wood.has("sample"))
            wood.fault("key-conflict", wood.place_of("sample"),
                       "sample goes with reflectance: it names one reading of the file");
        std::optional<optics::Geometry> geometry;
        if (const auto g = wood.choice("geometry", geometry_words())) geometry = geometry_from(*g);
        const auto reading = by_lab ? reading_as_stated(wood) : reading_of_file(wood, geometry);
        auto like = wood.text("like").value_or("");
        const Place like_place = wood.has("like") ? wood.place_of(*wood.table().get("like")) : wood.here();
        const bool generic = like.empty() || like == "generic";
        if (generic) like = reading ? like_in_color(*reading, wood) : "hard-maple";
        take(like, like_place);
        const auto it = scene_.materials.find(like);
        if (it == scene_.materials.end()) return;
        Material m = it->second;
        auto* data = std::get_if<material::Wood>(&m.data);
        if (!data) {
            wood.fault("material-kind", like_place,
                       "'" + like + "' is a " + std::string(word(m.kind)) + ", not a wood." +
                           suggestion(like, library_.ids(material::Kind::wood)));
            return;
        }
        m.id = "board";
        scene_.same_board = true;  // what was read is the board itself
        m.name = wood.text("name").value_or("the board");
        if (generic) make_generic(*data);
        if (reading) level(wood, *data, *reading, like);
        if (geometry)
            data->geometry = *geometry;
        else if (!wood.has("geometry") && (reading || !by_lab))  // else said with what else a Lab lacks
            wood.fault("key-missing", wood.here(), "a reading needs its geometry: " + either(geometry_words()));
        scene_.materials["board"] = std::move(m);
        scene_.wood = "board";
    }

    // The library's wood that stands in where nobody says which wood it is.
    std::string like_in_color(const BoardReading& reading, const Keys& wood) {
        const auto& one = reading.one;
        const auto lab = one.reflectance
                             ? color::to_lab(color::xyz(spectral::to_grid(*one.reflectance).spectrum, reading.weights),
                                             reading.weights.white)
                             : *one.lab;
        const auto nearest = nearest_wood(library_, lab, reading.weights);
        warn("wood-like-assumed", wood.here(),
             std::string(wood.has("like") ? "" : "[wood] does not say which wood was read: ") +
                 "how it drinks, scatters and looks is generic: the figures of " + nearest +
                 ", the nearest in color, twice as unsure; like = \"...\" names yours ('foretone materials' lists "
                 "them)");
        return nearest;
    }

    // What a Lab of the wood (`wood`) or of the target lacks is told at once.
    std::optional<color::Lab> read_lab(const Keys& from, bool wood, std::string& light, std::string& observer) {
        const auto lab = from.numbers("lab");
        if (!lab) return std::nullopt;
        if (lab->size() != 3 || (*lab)[0] < 0 || (*lab)[0] > 100 || std::abs((*lab)[1]) > 150 ||
            std::abs((*lab)[2]) > 150) {
            from.fault("value-range", from.place_of(*from.table().get("lab")),
                       "lab must be [L, a, b] with L from 0 to 100 and a, b within 150 of 0");
            return std::nullopt;
        }
        const auto l = from.text("light");
        const auto o = from.choice("observer", library_.observers());
        std::vector<std::string> missing;
        for (const char* key : {"light", "observer", "geometry"})
            if (!from.has(key) && (key != std::string_view("geometry") || wood)) missing.emplace_back(key);
        if (!l || !o) {
            if (!missing.empty())
                from.fault("key-missing", from.here(),
                           "a Lab value needs its " + base::joined(missing, ", ", " and ") +
                               ", as the instrument shows them: such as light = \"D65\", observer = \"10deg\"" +
                               (wood ? ", geometry = \"d/8-included\"" : ""));
            return std::nullopt;
        }
        light = known_light(*l, from.place_of(*from.table().get("light")));
        if (light.empty()) return std::nullopt;
        observer = *o;
        return color::Lab{(*lab)[0], (*lab)[1], (*lab)[2]};
    }

    std::optional<BoardReading> reading_as_stated(const Keys& wood) {
        BoardReading out;
        out.one.lab = read_lab(wood, true, out.one.light, out.one.observer);
        if (!out.one.lab) return std::nullopt;
        out.place = wood.place_of(*wood.table().get("lab"));
        out.source = "Lab stated in the scene";
        out.weights = color::make_weights(library_.illuminant(out.one.light), library_.observer(out.one.observer));
        return out;
    }

    // `geometry`: as [wood] says it, or then as the file does.
    std::optional<BoardReading> reading_of_file(const Keys& wood, std::optional<optics::Geometry>& geometry) {
        const auto name = wood.text("reflectance");
        if (!name) return std::nullopt;
        std::optional<BoardReading> out;
        const auto place = wood.place_of(*wood.table().get("reflectance"));
        guarded(place, [&] {
            BoardReading r;
            r.place = place;
            r.one = read_one_reading(folder_ / *name, library_, wood.text("sample").value_or(""));
            for (const auto& n : r.one.notes) warn(n.id, n.place, n.text);
            if (r.one.geometry && geometry && *geometry != *r.one.geometry)
                wood.fault("geometry-contradicts", wood.place_of("geometry"),
                           "[wood] says " + geometry_word(*geometry) + ", but " + *name + " says " +
                               geometry_word(*r.one.geometry) + "; one of the two is wrong");
            if (!geometry) geometry = r.one.geometry;
            if (!r.one.reflectance && !r.one.lab)
                throw InputError("reading-without-color", place,
                                 *name + " holds a difference to a standard only; a wood needs its color");
            r.source = (r.one.name.empty() ? "reading " : "reading '" + r.one.name + "' ") + std::string("in ") + *name;
            const bool lab = !r.one.reflectance;
            r.weights = color::make_weights(library_.illuminant(lab ? r.one.light : "D65"),
                                            library_.observer(lab ? r.one.observer : "2deg"));
            out = std::move(r);
        });
        return out;
    }

    // Brings the wood's reflectance to what was read.
    void level(const Keys& wood, material::Wood& data, const BoardReading& reading, const std::string& like) {
        const auto& one = reading.one;
        if (one.reflectance) {
            const auto grid = spectral::to_grid(*one.reflectance);
            data.reflectance = {grid.spectrum,  own_board_sd,    {material::Mark::measured, reading.source},
                                grid.resampled, grid.held_below, grid.held_above};
            const auto file = wood.text("reflectance").value_or("");
            if (grid.resampled) warn("spectrum-resampled", reading.place, file + " was resampled to 5 nm");
            if (grid.held_below || grid.held_above)
                warn("spectrum-extended", reading.place,
                     file + " does not cover 380 to 780 nm: its end values were held");
            return;
        }
        if (!material::relevel(data, *one.lab, reading.weights)) {
            wood.fault("lab-unreachable", reading.place,
                       "no wood-like reflectance has this Lab value; check the numbers, the light and the observer");
            return;
        }
        const auto shapes = shape_spread(library_, *one.lab, reading.weights);
        data.reflectance.sd = std::hypot(own_board_sd, shapes.sd);
        data.reflectance.from = {material::Mark::stated, reading.source + ", shape of " + like};
        warn("reflectance-from-lab", reading.place,
             "a color is no curve: the reflectance is the shape of " + like + " brought to this Lab value. The " +
                 std::to_string(shapes.woods) + " woods of the library that can have it differ by " +
                 base::at_most(100 * shapes.sd, 1) +
                 " %, which is carried as spread; under other lights it can be off by a few dE00");
    }

    void read_finishes() {
        const auto* node = root_.table().get("finish");
        const auto* list = node ? node->as_array() : nullptr;
        if (!node && root_.has("search")) return;  // a search needs none
        if (!list || list->empty()) {
            problems_.add("finish-empty", node ? root_.place_of(*node) : Place{root_.file(), 1, 1},
                          "there is no finish: add [[finish]] with a name and at least one [[finish.step]]");
            return;
        }
        if (list->size() > most_finishes) {
            problems_.add("finishes-many", root_.place_of((*list)[most_finishes]),
                          "there are " + std::to_string(list->size()) + " finishes; at most " +
                              std::to_string(most_finishes) + " go into one scene: put the others into another");
            return;
        }
        std::set<std::string> names;
        for (const auto& item : *list) {
            const auto* table = item.as_table();
            if (!table) {
                problems_.add("value-type", root_.place_of(item), "a finish is a table: [[finish]]");
                continue;
            }
            read_finish(keys(*table, "[[finish]]"), names);
        }
    }

    void read_finish(const Keys& finish, std::set<std::string>& names) {
        finish.only({"name", "step", "wet_place"});
        schedule::Finish out;
        if (const auto* wet = finish.table().get("wet_place")) {
            if (const auto v = wet->value_exact<bool>())
                out.wet_place = *v;
            else
                finish.fault("value-type", finish.place_of(*wet), "wet_place is true or false");
        }
        out.name = finish.text("name").value_or("");
        if (out.name.empty())
            finish.fault("key-missing", finish.here(), "a finish needs a name");
        else if (base::lower(out.name) == "bare")
            finish.fault("finish-bare", finish.place_of("name"),
                         "\"bare\" is the wood alone, wherever a finish is named; call this one otherwise");
        else if (!names.insert(out.name).second)
            finish.fault("finish-twice", finish.place_of("name"), "there are two finishes named \"" + out.name + "\"");
        std::vector<Scene::StepPlace> places;
        const auto* steps = finish.table()["step"].as_array();
        if (!steps || steps->empty())
            finish.fault("finish-empty", finish.here(),
                         "finish \"" + out.name + "\" has no step: add [[finish.step]] with use = \"...\"");
        else if (steps->size() > most_steps)
            finish.fault("steps-many", finish.place_of((*steps)[most_steps]),
                         "finish \"" + out.name + "\" has " + std::to_string(steps->size()) + " steps; at most " +
                             std::to_string(most_steps) + " are worked out: coats = N says coats alike");
        else
            for (const auto& item : *steps) {
                const auto* table = item.as_table();
                if (!table) {
                    finish.fault("value-type", finish.place_of(item), "a step is a table: [[finish.step]]");
                    continue;
                }
                places.emplace_back();
                out.steps.push_back(read_step(keys(*table, "[[finish.step]]"), places.back()));
                for (std::size_t i = 0; i < out.steps.back().mix.size(); ++i)
                    if (!out.steps.back().mix[i].use.empty()) take(out.steps.back().mix[i].use, places.back().parts[i]);
            }
        scene_.finishes.push_back(std::move(out));
        scene_.places.push_back(std::move(places));
    }

    void read_target() {
        const auto* table = root_.sub("target");
        if (!table) return;
        const auto target = keys(*table, "[target]");
        target.only({"finish", "lab", "srgb", "reflectance", "sample", "standard", "light", "observer", "board",
                     "tolerance_dE00", "aged", "judge_at"});
        if (target.has("finish") + target.has("lab") + target.has("reflectance") + target.has("srgb") != 1) {
            target.fault("key-conflict", target.here(),
                         "[target] is said in exactly one way: finish = \"...\", reflectance = \"file.csv\", lab = [L, "
                         "a, b] or srgb = \"#rrggbb\"");
            return;
        }
        if (!target.has("lab"))
            for (const char* key : {"light", "observer"})
                if (target.has(key))
                    target.fault("key-conflict", target.place_of(key),
                                 std::string(key) + " goes with lab; other targets are judged under [look]");
        if (target.has("sample") && !target.has("reflectance"))
            target.fault("key-conflict", target.place_of("sample"),
                         "sample goes with reflectance: it names one reading of the file");
        Target out;
        out.place = target.here();
        out.tolerance_de00 = target.number("tolerance_dE00", 0.1, 20, "dE00");
        if (const auto board = target.choice("board", {"same", "another"})) out.same_board = *board == "same";
        if (const auto name = target.text("finish")) {
            std::vector<std::string> names;
            for (const auto& f : scene_.finishes) names.push_back(f.name);
            if (std::find(names.begin(), names.end(), *name) == names.end())
                target.fault("finish-unknown", target.place_of("finish"),
                             "there is no finish \"" + *name + "\"." + suggestion(*name, names));
            out.finish = *name;
        }
        out.aged = read_duration(target, "aged");
        out.judge_at = read_duration(target, "judge_at");
        for (const char* key : {"aged", "judge_at"})
            if (target.has(key) && !target.has("finish"))
                target.fault("key-conflict", target.place_of(key),
                             std::string(key) +
                                 " goes with finish = \"...\": how a reading or a color will change is not "
                                 "known without knowing what it is of");
        out.lab = read_lab(target, false, out.light, out.observer);
        if (target.has("srgb")) read_srgb(target, out);
        if (const auto name = target.text("reflectance"))
            guarded(target.place_of("reflectance"), [&] {
                const auto one = read_one_reading(folder_ / *name, library_, target.text("sample").value_or(""));
                for (const auto& n : one.notes) warn(n.id, n.place, n.text);
                out.file = *name;
                target_from(target, one, out);
            });
        if (target.has("standard") && !target.has("reflectance"))
            target.fault("key-conflict", target.place_of("standard"),
                         "standard goes with reflectance, a file that holds differences to it");
        scene_.target = out;
    }

    void read_search() {
        const auto* table = root_.sub("search");
        if (!table) return;
        scene_.search = read_search_table(keys(*table, "[search]"),
                                          [this](const std::string& id, const Place& place) -> const Material* {
                                              take(id, place);
                                              const auto it = scene_.materials.find(id);
                                              return it == scene_.materials.end() ? nullptr : &it->second;
                                          });
    }

    Problems problems_;
    Keys root_;
    std::filesystem::path folder_;
    const Library& library_;
    Scene scene_;
};

}  // namespace

Scene read_scene_text(const std::string& text, const std::string& file, const std::filesystem::path& folder,
                      const Library& library) {
    auto root = parse_toml(text, file);
    Problems faults;
    Cans cans;
    const auto notes = apply_data_sheets(root, file, faults, cans);
    faults.raise();
    auto scene = SceneReader(root, file, folder, library).read();
    for (auto& [id, can] : cans) scene.cans[id] = can;  // a material of the scene takes the place of a file's
    scene.warnings.insert(scene.warnings.begin(), notes.begin(), notes.end());
    return scene;
}

Scene read_scene(const std::filesystem::path& file, const Library& library) {
    const auto scene = scene_in(file);
    return read_scene_text(read_text(scene), scene.string(), scene.parent_path(), library);
}

std::string geometry_text(optics::Geometry geometry) { return geometry_word(geometry); }

}  // namespace foretone::scene
