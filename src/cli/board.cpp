#include "board.hpp"

#include <algorithm>
#include <cmath>
#include <deque>
#include <iostream>
#include <memory>

#include "findings.hpp"
#include "foretone/base/number.hpp"
#include "foretone/color/srgb.hpp"
#include "foretone/report/json.hpp"
#include "foretone/format/png_rows.hpp"
#include "foretone/job/board_rows.hpp"
#include "foretone/scene/output.hpp"
#include "aged.hpp"
#include "seed.hpp"
#include "terminal.hpp"
#include "watch.hpp"

namespace foretone::cli {
namespace {
using grain::Cut;
using light::View;

constexpr const char* size_help = "two numbers above 0 with an x between, like 300x200";

// "300x200" as two positive numbers.
std::pair<double, double> sides(const std::string& option, const std::string& text) {
    const auto times = std::min(text.find_first_of("xX"), text.size());
    const double w = base::number_in(text.substr(0, times)).value_or(0);
    const double h = times < text.size() ? base::number_in(text.substr(times + 1)).value_or(0) : 0;
    if (!(w > 0 && h > 0) || !std::isfinite(w * h))
        throw UsageError("board-sides", {"board"}, option + " is \"" + text + "\"; it takes " + size_help);
    return {w, h};
}

// What a width of pixel is not; empty if it is one.
std::string no_width(const std::string& text) {
    const double mm = base::number_in(text).value_or(0);
    const bool good = mm > 0 && std::isfinite(mm);
    return good ? "" : "--mm-per-px takes a number of millimetres above 0, not '" + text + "'";
}

// Any two of millimetres, pixels and scale give the third; one alone goes with the usual other.
void set_size(const BoardOptions& o, job::BoardRequest& r) {
    if (o.mm_per_px != 0) r.mm_per_px = o.mm_per_px;
    if (!o.size_mm.empty()) std::tie(r.width_mm, r.height_mm) = sides("--size-mm", o.size_mm);
    if (o.px.empty()) return;
    const auto [w, h] = sides("--px", o.px);
    if (o.size_mm.empty()) {
        if (o.mm_per_px == 0) r.mm_per_px = r.width_mm / w;
        r.width_mm = w * r.mm_per_px;
        r.height_mm = h * r.mm_per_px;
        return;
    }
    if (o.mm_per_px != 0)
        throw UsageError("board-sides", {"board"},
                         "--size-mm, --px and --mm-per-px: any two say the third; leave one out");
    r.mm_per_px = r.width_mm / w;
    if (std::abs(r.height_mm / r.mm_per_px - h) > 0.5)
        throw UsageError("board-sides", {"board"},
                         o.size_mm + " mm and " + o.px + " pixels have different shapes; " + base::shortest(w) +
                             " pixels across go with " + base::shortest(std::round(r.height_mm / r.mm_per_px)) +
                             " down");
}

job::BoardRequest request_of(const BoardOptions& o, const scene::Scene& scene) {
    job::BoardRequest r;
    r.finishes = o.finishes;
    r.lights = o.lights;
    r.cut = o.cut == "quarter" ? Cut::quarter : o.cut == "rift" ? Cut::rift : Cut::flat;
    r.view = o.view == "flat" ? View::flat : o.view == "lamp" ? View::lamp : View::window;
    r.seed = seed_from("board", o.seed, scene.title);
    r.tilt = o.tilt;
    if (!o.after.empty()) r.after = after_from("board", o.after);
    r.shade_edges = o.shade == "edges";
    if (r.shade_edges && r.tilt)
        throw UsageError("board-shade-tilt", {"board"},
                         "--tilt shows one strip of a board alike all over: leave out --shade or --tilt");
    set_size(o, r);
    return r;
}

std::size_t place_in(const std::vector<std::string>& list, const std::string& word) {
    return static_cast<std::size_t>(std::find(list.begin(), list.end(), word) - list.begin());
}

// One PNG a board, and one a strip, named after scene, finish, view and light, packed while they are drawn.
class BoardFiles {
public:
    BoardFiles(const job::BoardRequest& request, const scene::Scene& scene, std::filesystem::path folder)
        : request_(request), scene_(scene), folder_(std::move(folder)) {}

    job::TakeRows begin(const job::NewPicture& p) {
        auto rest = std::make_shared<scene::Spool>(folder_);
        packed_.push_back({folder_ / (name_of(p) + ".png"),
                           rest,
                           {p.width, p.height, options_of(p), [rest](auto bytes) { rest->add(bytes); }}});
        return [&png = packed_.back().png](auto rgb) { png.add(rgb); };
    }

    std::vector<scene::OutputFile> files() {
        std::vector<scene::OutputFile> out;
        for (auto& p : packed_) {
            out.push_back({p.path, p.png.finish()});
            out.back().rest = p.rest;
        }
        return out;
    }

private:
    struct Packed {
        std::filesystem::path path;
        std::shared_ptr<scene::Spool> rest;
        format::PngRows png;
    };

    std::string name_of(const job::NewPicture& p) const {
        const auto& lights = request_.lights.empty() ? scene_.look.lights : request_.lights;
        std::string name = scene::file_stem(scene_.file) + "-board-" + scene::finish_words(scene_).at(p.finish) + "-" +
                           (p.strip ? "tilt" : std::string(light::word(request_.view)));
        if (request_.after) name += "-" + scene::file_words({request_.after->text}).front();
        if (p.shaded) name += "-edges";
        std::vector<std::string> once;
        for (const auto& id : lights)
            if (std::find(once.begin(), once.end(), id) == once.end()) once.push_back(id);
        if (once.size() > 1) name += "-" + scene::file_words(once)[place_in(once, p.light)];
        return name;
    }

    format::PngOptions options_of(const job::NewPicture& p) const {
        const auto& wood = scene_.materials.at(scene_.wood).name;
        format::PngOptions o;
        o.dpi = std::clamp(25.4 / request_.mm_per_px, 1.0, 10000.0);
        o.photograph = true;
        o.title = scene_.title + ": " + p.finish;
        o.description = wood + ", " +
                        (p.strip ? "a light passing over" : std::string(light::word(request_.view)) + " view") +
                        ", light " + p.light + ", seed " + std::to_string(request_.seed) +
                        (request_.after ? ", after " + request_.after->text : "") + (p.shaded ? ", edges toned" : "") +
                        ". A picture of what to expect, not a sample.";
        return o;
    }

    const job::BoardRequest& request_;
    const scene::Scene& scene_;
    std::filesystem::path folder_;
    std::deque<Packed> packed_;
};

// How the grain stands out, and against the bare wood's if that is shown: "1.56 -> 2.02 bolder".
std::string grain_text(const job::Boards& b, const job::SeenBoard& s) {
    if (!s.contrast) return "";
    const auto own = fixed(s.contrast->ratio, 2);
    for (const auto& other : b.boards) {
        if (other.finish != "bare" || other.light != s.light || s.finish == "bare" || !other.contrast) continue;
        const double times = s.contrast->ratio / other.contrast->ratio;
        const auto* word = times > 1.3    ? "much bolder"
                           : times > 1.08 ? "bolder"
                           : times < 0.77 ? "much quieter"
                           : times < 0.93 ? "quieter"
                                          : "as bare";
        return fixed(other.contrast->ratio, 2) + " -> " + own + " " + word;
    }
    return own;
}

std::string row_name(const job::Boards& b, const std::string& finish) {
    for (const auto& f : b.finishes)
        if (f.name == finish) return marked(finish, f.findings);
    return finish;
}

void print(const job::Boards& b) {
    const auto& r = b.request;
    std::cout << b.title << "\n"
              << b.wood_name << " · "
              << (r.cut == Cut::flat      ? "flat"
                  : r.cut == Cut::quarter ? "quarter"
                                          : "rift")
              << " cut · " << base::shortest(std::round(r.width_mm * 10) / 10) << " x "
              << base::shortest(std::round(r.height_mm * 10) / 10) << " mm · " << r.width() << " x " << r.height()
              << " pixels · seed " << r.seed << (r.after ? " · after " + r.after->text : "") << "\n\n";
    std::vector<std::vector<std::string>> rows = {
        {"finish", "light", "", "board  L*     a*     b*", "off dE00", "grain"}};
    const Chips how = chips();
    for (const auto& s : b.boards) {
        const auto shown = color::to_display(color::from_lab(s.mean, color::srgb_white), color::srgb_white);
        rows.push_back({row_name(b, s.finish), s.light, chip(shown.code, how), lab_text(s.mean), fixed(s.de00, 2),
                        grain_text(b, s)});
    }
    std::cout << table(rows, {false, false, false, true, true, false});
    std::cout << "\nboard: the mean reading (45/0) of all pixels; off: from the reading that the mean wood would give. "
                 "grain: how many times as\n"
              << "much light the palest tenth of the board returns as the darkest, beside bare as bare -> finished.\n"
              << "The board is drawn from typical figures of its species, not from yours. Screens and prints are not "
                 "the sample:\n"
              << "make one board before the job.\n";
    for (const auto& s : b.boards)
        if (s.shade)
            std::cout << s.finish << ", " << s.light << ": toned from L* a* b* " << lab_text(s.shade->middle)
                      << " in the middle to " << lab_text(s.shade->edge) << " at the edges, dE00 "
                      << fixed(s.shade->de00, 1) << "\n";
    for (const auto& f : b.finishes) std::cout << findings_text(f.name, f.findings);
}

int run(const BoardOptions& o) {
    if (!o.photo.photo.empty()) {
        if (!o.shade.empty() || !o.after.empty())
            throw UsageError("board-photo-new", {"board"}, "--shade and --after are for drawn boards, not for --photo");
        return board_photo(o, o.scene, o.finishes, o.lights, o.photo, o.mm_per_px);
    }
    const auto lib = library(o);
    const auto scene = scene::read_scene(o.scene, lib);
    const Stoppable by_hand;
    const auto request = request_of(o, scene);
    BoardFiles pictures(request, scene, o.out);
    const auto b =
        job::boards(scene, lib, request, {tell, stop_asked}, [&](const auto& p) { return pictures.begin(p); });
    auto files = pictures.files();
    const std::string json = o.json.empty() ? "" : report::boards_json(b);
    std::vector<std::filesystem::path> opened;
    for (const auto& f : files) opened.push_back(f.path);
    deliver(o, std::move(files), json);
    print_warnings(o, b.warnings);
    if (o.speaks()) {
        print(b);
        std::cout << "open:";
        for (const auto& path : opened) std::cout << "\n  " << path.string();
        std::cout << "\n";
    }
    print_cautions(o, b.cautions);
    return 0;
}

}  // namespace

void add_board(CLI::App& app, Verb& chosen) {
    auto o = std::make_shared<BoardOptions>();
    auto* verb = app.add_subcommand("board", "The finishes of a scene on a board with grain, in light");
    verb->add_option("SCENE", o->scene, "Scene file (TOML)")->required();
    verb->add_option("--finish", o->finishes,
                     "Finishes to show, by name; \"bare\" is the wood alone (default: bare and all)")
        ->type_name("NAME...");
    verb->add_option(
            "--light", o->lights,
            "Lights to show them under (default: those of the scene's look; with --photo one, the first of them)")
        ->type_name("ID...");
    verb->add_option("--cut", o->cut, "How the board lay in the log: flat, quarter or rift (default: flat)")
        ->check(CLI::IsMember({"flat", "quarter", "rift"}))
        ->type_name("CUT");
    verb->add_option("--size-mm", o->size_mm, "Size of the board, along and across the grain (default: 300x200)")
        ->type_name("WxH");
    verb->add_option("--px", o->px, "Size of the picture")->type_name("WxH");
    verb->add_option("--mm-per-px", o->mm_per_px,
                     "Width of a pixel on the board (default: 0.25; of a photograph: by a picture of 400 mm)")
        ->type_name("MM")
        ->check(no_width);
    verb->add_option("--seed", o->seed,
                     "Another number, another board of the same wood (default: from the scene's title)")
        ->type_name("N");
    verb->add_option("--view", o->view,
                     "window, lamp, or flat: as an instrument reads it, no highlights (default: window)")
        ->check(CLI::IsMember({"window", "lamp", "flat"}))
        ->type_name("VIEW");
    verb->add_option("--after", o->after, "Show the boards so old, where [look] exposure says they stand: \"1 year\"")
        ->type_name("TIME");
    verb->add_option("--shade", o->shade,
                     "edges: the finish's toners are sprayed towards the edges, and fade out towards the middle")
        ->check(CLI::IsMember({"edges"}))
        ->type_name("HOW");
    verb->add_flag("--tilt", o->tilt, "Also a strip of the board under a light that passes over it");
    add_board_photo(*verb, o->photo);
    add_common(*verb, *o);
    verb->callback([o, &chosen] { chosen = [o] { return run(*o); }; });
}

}  // namespace foretone::cli
