#include "foretone/scene/boards.hpp"

#include <algorithm>

#include "foretone/scene/readings.hpp"
#include "foretone/scene/text_file.hpp"
#include "foretone/spectral/sampled.hpp"
#include "material_table.hpp"
#include "own_materials.hpp"
#include "step_table.hpp"

namespace foretone::scene {
namespace {

// What [readings] says of all of them.
struct Common {
    std::string name, file;
    double spread_de = 0.3;
    measure::Readings readings;
    bool given = false;
};

class BoardsReader {
public:
    BoardsReader(const toml::table& root, const std::string& file, const std::filesystem::path& folder,
                 const Library& library)
        : root_(root, file, "the boards file", problems_), folder_(folder), library_(library) {
        out_.file = file;
    }

    BoardsFile read() {
        root_.only({"format", "title", "by", "look", "readings", "names", "board", "material", "materials"});
        if (!root_.has("format"))
            root_.fault("key-missing", {root_.file(), 1, 1}, "format = 1 is missing");
        else
            root_.integer("format", 1, 1);
        out_.title = root_.text("title").value_or(std::filesystem::path(root_.file()).stem().string());
        out_.by = root_.text("by").value_or("");
        if (out_.by.empty())
            root_.fault("key-missing", {root_.file(), 1, 1},
                        "by = \"whose boards, read when\" is missing: it becomes the source of every fitted figure");
        for (const auto& [id, place] : read_own_materials(root_, folder_, library_, out_.question.materials, fits_,
                                                          [&](Problem p) { out_.warnings.push_back(std::move(p)); }))
            out_.own.insert(id);
        read_look();
        read_common();
        read_boards();
        read_names();
        if (problems_.empty() && out_.question.readings.empty())
            root_.fault(
                "readings-missing", {root_.file(), 1, 1},
                "no board has a reading: give each board reading = [ { name = \"sample\", step = 1, coat = 1 } ]");
        problems_.raise();
        return std::move(out_);
    }

private:
    Keys keys(const toml::table& table, std::string what) {
        return Keys(table, root_.file(), std::move(what), problems_);
    }

    template <class F>
    void guarded(const Place& asked, F&& f) {
        try {
            f();
        } catch (const InputError& e) {
            for (const auto& p : e.problems) problems_.add(p.id, p.place.file == "library" ? asked : p.place, p.text);
        }
    }

    void read_look() {
        const auto* table = root_.sub("look");
        if (!table) {
            if (!root_.has("look"))
                root_.fault("key-missing", {root_.file(), 1, 1},
                            "[look] is missing: light, observer and geometry of the readings");
            return;
        }
        const auto look = keys(*table, "[look]");
        look.only({"light", "observer", "geometry"});
        for (const char* key : {"light", "observer", "geometry"})
            if (!look.has(key))
                look.fault("key-missing", look.here(), std::string("[look] needs the readings' ") + key);
        if (const auto l = look.text("light"); l && library_.has_light(*l))
            out_.light = *l;
        else if (l)
            look.choice("light", library_.lights());  // says what would be right
        if (const auto o = look.choice("observer", library_.observers())) out_.observer = *o;
        if (const auto g = look.choice("geometry", geometry_words())) out_.question.geometry = geometry_from(*g);
        if (!out_.light.empty() && !out_.observer.empty()) weights_ = weights(out_.light, out_.observer, look.here());
    }

    std::optional<color::Weights> weights(const std::string& light, const std::string& observer, const Place& place) {
        std::optional<color::Weights> w;
        guarded(place, [&] { w = color::make_weights(library_.illuminant(light), library_.observer(observer)); });
        return w;
    }

    void read_common() {
        const auto* table = root_.sub("readings");
        if (!table) return;
        const auto common = keys(*table, "[readings]");
        common.only({"file", "spread_de", "place_de", "board_de", "hand"});
        auto& noise = out_.question.noise;
        common_.spread_de = common.number("spread_de", 0.01, 20, "dE").value_or(common_.spread_de);
        noise.place_de = common.number("place_de", 0, 20, "dE").value_or(noise.place_de);
        noise.board_de = common.number("board_de", 0, 20, "dE").value_or(noise.board_de);
        noise.hand = common.number("hand", 0, 1).value_or(noise.hand);
        const auto name = common.text("file");
        if (!name) return;
        const auto path = folder_ / *name;
        common_.name = *name;
        common_.file = path.string();
        measure::Options stated;
        stated.light = out_.light;
        stated.observer = out_.observer;
        stated.geometry = out_.question.geometry;
        guarded(common.place_of("file"), [&] {
            common_.readings = read_readings(path, library_, stated);
            common_.given = true;
            for (auto& p : notes_of(common_.readings, common_.file)) out_.warnings.push_back(std::move(p));
        });
    }

    void read_boards() {
        const auto* list = root_.table()["board"].as_array();
        if (!list || list->empty()) {
            root_.fault("board-missing", {root_.file(), 1, 1},
                        "there is no board: add [[board]] with name, wood, its steps and its readings");
            return;
        }
        std::set<std::string> names;
        for (const auto& item : *list) {
            const auto* table = item.as_table();
            if (!table) {
                root_.fault("value-type", root_.place_of(item), "a board is a table: [[board]]");
                continue;
            }
            read_board(keys(*table, "[[board]]"), names);
        }
    }

    void read_board(const Keys& board, std::set<std::string>& names) {
        board.only({"name", "wood", "step", "reading"});
        learn::StepBoard out;
        out.name = board.text("name").value_or("");
        if (out.name.empty())
            board.fault("key-missing", board.here(), "a board needs a name");
        else if (!names.insert(out.name).second)
            board.fault("board-twice", board.place_of("name"), "there are two boards named \"" + out.name + "\"");
        out.wood = board.text("wood").value_or("");
        if (!board.has("wood"))
            board.fault("key-missing", board.here(), "board \"" + out.name + "\" needs its wood = \"id\"");
        else {
            take_material(out.wood, board.place_of(*board.table().get("wood")), library_, out_.question.materials,
                          problems_);
            const auto it = out_.question.materials.find(out.wood);
            if (it != out_.question.materials.end() && it->second.kind != material::Kind::wood)
                board.fault("material-kind", board.place_of(*board.table().get("wood")),
                            "'" + out.wood + "' is a " + std::string(word(it->second.kind)) + ", not a wood." +
                                suggestion(out.wood, library_.ids(material::Kind::wood)));
        }
        out.finish.name = out.name;
        if (const auto* steps = board.table()["step"].as_array())
            for (const auto& item : *steps) {
                const auto* table = item.as_table();
                if (!table) {
                    board.fault("value-type", board.place_of(item), "a step is a table: [[board.step]]");
                    continue;
                }
                Scene::StepPlace place;
                out.finish.steps.push_back(read_step(keys(*table, "[[board.step]]"), place));
                const auto& mix = out.finish.steps.back().mix;
                for (std::size_t i = 0; i < mix.size(); ++i)
                    if (!mix[i].use.empty())
                        take_material(mix[i].use, place.parts[i], library_, out_.question.materials, problems_);
            }
        out_.question.boards.push_back(out);
        read_states(board);
    }

    void read_states(const Keys& board) {
        const auto* list = board.table()["reading"].as_array();
        if (!list) {
            if (board.has("reading"))
                board.fault("value-type", board.place_of("reading"),
                            "reading is a list: [ { name = \"sample\", step = 1, coat = 1 } ]");
            else
                read_tagged(board);
            return;
        }
        for (const auto& item : *list) {
            const auto* table = item.as_table();
            if (table)
                read_state(keys(*table, "a reading"));
            else
                board.fault("value-type", board.place_of(item),
                            "a reading is { name = \"sample\", step = 1, coat = 1 }");
        }
    }

    // Readings whose own columns say board, step and coat.
    void read_tagged(const Keys& board) {
        const std::string name = out_.question.boards.back().name;
        bool any = false;
        for (const auto& r : common_.readings.readings) {
            const auto tag = r.tags.find("on");
            if (tag == r.tags.end() || tag->second != name) continue;
            any = true;
            const Place place{common_.file, r.line, 1};
            const auto whole = [&](const char* key, int otherwise) {
                const auto it = r.tags.find(key);
                if (it == r.tags.end() || it->second.empty()) return otherwise;
                int v = 0;
                for (const char c : it->second) {
                    if (c < '0' || c > '9' || v > 1000) {
                        problems_.add("reading-state", place,
                                      std::string(key) + " of \"" + r.name + "\" is '" + it->second.substr(0, 20) +
                                          "'; a whole number is due");
                        return otherwise;
                    }
                    v = 10 * v + (c - '0');
                }
                return v;
            };
            const int step = whole("step", 0);
            add(r, step, whole("coat", step == 0 ? 0 : -1), place);
        }
        if (!any && problems_.empty())
            board.fault(
                "readings-missing", board.here(),
                "board \"" + name +
                    "\" has no reading: list them, reading = [ { name = \"sample\", step = 1 } ], or give the readings "
                    "file columns on, step, coat");
    }

    void read_state(const Keys& state) {
        state.only({"name", "step", "coat", "lab", "spread_de"});
        const int step = state.integer("step", 0, 100).value_or(0);
        const int coat = state.integer("coat", 0, 100).value_or(step == 0 ? 0 : -1);
        const auto name = state.text("name");
        const auto spread = state.number("spread_de", 0.01, 20, "dE");
        if (state.has("lab")) {
            const auto lab = state.numbers("lab");
            if (!lab || lab->size() != 3 || (*lab)[0] < 0 || (*lab)[0] > 100) {
                state.fault("value-range", state.place_of("lab"), "lab must be [L, a, b] with L from 0 to 100");
                return;
            }
            measure::Reading r;
            r.name = name.value_or("reading " + std::to_string(out_.question.readings.size() + 1));
            r.lab = color::Lab{(*lab)[0], (*lab)[1], (*lab)[2]};
            r.light = out_.light;
            r.observer = out_.observer;
            r.spread_de = spread;
            add(r, step, coat, state.here());
            return;
        }
        if (!name) {
            if (!state.has("name"))
                state.fault("key-missing", state.here(),
                            "a reading needs its name in the readings file, or lab = [L, a, b]");
            return;
        }
        if (!common_.given) {
            if (common_.file.empty())
                state.fault("readings-missing", state.here(),
                            "reading \"" + *name + "\": no file is named; add [readings] with file = \"...\"");
            return;
        }
        bool found = false;
        std::vector<std::string> names;
        for (auto r : common_.readings.readings) {
            names.push_back(r.name);
            if (r.name != *name) continue;
            found = true;
            if (spread) r.spread_de = spread;
            add(r, step, coat, state.place_of("name"));
        }
        if (!found)
            state.fault("sample-unknown", state.place_of("name"),
                        "there is no reading \"" + *name + "\" in " + common_.name + "." + suggestion(*name, names));
    }

    void add(const measure::Reading& r, int step, int coat, const Place& place) {
        const auto& steps = out_.question.boards.back().finish.steps;
        const int last = static_cast<int>(steps.size());
        if (step > last) {
            problems_.add("reading-state", place,
                          "reading \"" + r.name + "\" is after step " + std::to_string(step) + ", but board \"" +
                              out_.question.boards.back().name + "\" has " + std::to_string(last) +
                              (last == 1 ? " step" : " steps"));
            return;
        }
        const int most = step == 0 ? 0 : steps[static_cast<std::size_t>(step) - 1].coats;
        if (coat < 0) coat = most;
        if (coat > most || (step > 0 && coat == 0)) {
            problems_.add(
                "reading-state", place,
                "reading \"" + r.name + "\" is after coat " + std::to_string(coat) + " of step " +
                    std::to_string(step) +
                    (step == 0 ? ", but step 0 is the bare board" : ", which has coats 1 to " + std::to_string(most)));
            return;
        }
        if (r.relative) {
            problems_.add(
                "reading-relative", place,
                "reading \"" + r.name + "\" is from a photograph: good for differences within it, not for a fit");
            return;
        }
        if (r.geometry && *r.geometry != out_.question.geometry) {
            problems_.add("geometry-contradicts", place,
                          "reading \"" + r.name + "\" says " + geometry_word(*r.geometry) + ", [look] says " +
                              geometry_word(out_.question.geometry) + "; one of the two is wrong");
            return;
        }
        learn::BoardReading out;
        out.name = r.name;
        out.board = out_.question.boards.size() - 1;
        out.step = step;
        out.coat = coat;
        out.spread_de = std::max(0.01, r.spread_de.value_or(common_.spread_de));
        const bool own = r.lab && !r.reflectance && (r.light != out_.light || r.observer != out_.observer);
        const auto w = own ? weights(r.light, r.observer, place) : weights_;
        if (!w) return;
        out.weights = *w;
        if (r.reflectance) {
            out.reflectance = spectral::to_grid(*r.reflectance).spectrum;
            out.first_nm = std::max(380.0, r.reflectance->first_nm());
            out.last_nm = std::min(780.0, r.reflectance->last_nm());
        } else if (r.lab)
            out.lab = r.lab;
        else {
            problems_.add("reading-without-color", place,
                          "reading \"" + r.name + "\" holds neither a reflectance nor Lab");
            return;
        }
        out_.question.readings.push_back(std::move(out));
    }

    void read_names() {
        const auto* table = root_.sub("names");
        if (!table) return;
        std::vector<std::string> ids;
        for (const auto& [id, m] : out_.question.materials) ids.push_back(id);
        const auto names = keys(*table, "[names]");
        names.only(ids);
        for (const auto& id : ids) {
            const auto name = names.text(id);
            if (!name) continue;
            const bool plain = !name->empty() && std::all_of(name->begin(), name->end(), [](char c) {
                return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
            });
            if (plain)
                out_.names[id] = *name;
            else
                names.fault("value-choice", names.place_of(id),
                            "a material's id is made of a-z, 0-9 and '-', not '" + name->substr(0, 40) + "'");
        }
    }

    Problems problems_;
    Keys root_;
    std::filesystem::path folder_;
    const Library& library_;
    std::vector<appearance::JointTable> fits_;  // of materials brought along: a fit starts from their own sd
    BoardsFile out_;
    Common common_;
    std::optional<color::Weights> weights_;
};

}  // namespace

std::string BoardsFile::written_as(const std::string& id) const {
    const auto it = names.find(id);
    // A liquid is named by every mix and every dye: the fitted one takes its place under the same id.
    if (it == names.end() && facts(question.materials.at(id).kind).bare_liquid) return id;
    return it == names.end() ? "my-" + id : it->second;
}

std::string BoardsFile::state(std::size_t reading) const {
    const auto& r = question.readings.at(reading);
    if (r.step == 0) return "bare";
    const int coats = question.boards[r.board].finish.steps[static_cast<std::size_t>(r.step) - 1].coats;
    return "step " + std::to_string(r.step) + (coats > 1 ? ", coat " + std::to_string(r.coat) : "");
}

BoardsFile read_boards(const std::filesystem::path& file, const Library& library) {
    const auto root = parse_toml(read_text(file), file.string());
    return BoardsReader(root, file.string(), file.parent_path(), library).read();
}

learn::Fit fit_boards(const BoardsFile& boards) {
    try {
        return learn::Fit(boards.question);
    } catch (const learn::NoFit& e) {
        throw InputError(e.id, {boards.file}, std::string("no fit: ") + e.what());
    } catch (const schedule::Fault& e) {
        throw InputError(e.id, {boards.file}, e.what());
    }
}

}  // namespace foretone::scene
