#include "foretone/job/stoppable.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>

#include "foretone/appearance/tones.hpp"
#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/color/adaptation.hpp"
#include "foretone/color/words.hpp"
#include "foretone/schedule/soaks_in.hpp"
#include "foretone/scene/text_file.hpp"

namespace foretone::job {
namespace {

constexpr std::uintmax_t largest_picture_file = 1'000'000'000;
constexpr double other_wood = 6;  // ΔE00 from the library's bare wood at which it is told

constexpr const char* without_card =
    "the photograph has no card, and without one no color can be promised. Lay a plain white card (or a photographer's "
    "grey card) flat "
    "on the board, light both evenly from one side, set the camera to no flash and no filter, and photograph from "
    "straight above; then "
    "say where the card is: --card X,Y,W,H in pixels (a part inside its edges), and --card-reflectance if it is not "
    "0.90. "
    "--no-card goes on without: then only differences mean anything";

color::Weights weights_of(const scene::Library& library, const std::string& light, const std::string& observer) {
    return color::make_weights(library.illuminant(light), library.observer(observer));
}

std::vector<std::size_t> chosen(const scene::Scene& scene, const std::vector<std::string>& wanted) {
    std::vector<std::size_t> out;
    std::vector<std::string> names;
    for (const auto& f : scene.finishes) names.push_back(f.name);
    if (names.empty())
        throw scene::InputError("finish-empty", {scene.file, 1, 1},
                                "there is no finish to show: add [[finish]] with its steps");
    for (const auto& name : wanted) {
        const auto at = std::find(names.begin(), names.end(), name);
        if (at == names.end() && name == "bare") continue;
        if (at == names.end())
            throw scene::InputError("finish-unknown", {scene.file},
                                    "there is no finish \"" + name + "\"." + scene::suggestion(name, names));
        const auto i = static_cast<std::size_t>(at - names.begin());
        if (std::find(out.begin(), out.end(), i) == out.end()) out.push_back(i);
    }
    for (std::size_t i = 0; i < names.size() && wanted.empty(); ++i) out.push_back(i);
    return out;
}

// A picture's mean, which is under D65, as a color under `white`.
SeenColor seen(const color::Xyz& under_d65, const std::string& light, const color::Xyz& white) {
    return see(color::adapt(under_d65, color::srgb_white, white), light, white);
}

struct Worker {
    const scene::Scene& scene;
    const appearance::Solver& solver;
    const material::Wood& wood;

    appearance::ToneSpectra spectra(const schedule::Finish& finish) const {
        const auto boards = appearance::boards(scene.materials, scene.wood, finish);
        return {boards.back(), wood, scene.look.geometry, solver, photo::photo_range};
    }
};

PhotoFinish finish_of(const std::string& name, const photo::FinishedPhoto& photo, const SeenColor& prediction,
                      const color::Xyz& white) {
    PhotoFinish out;
    out.name = name;
    out.board = seen(photo.mean, prediction.light, white);
    out.prediction = prediction;
    out.to_prediction = color::delta_e_00(out.board.lab, prediction.lab);
    out.out_of_gamut = photo.out_of_gamut;
    return out;
}

// What the room of photographs says of one, with the options that mend it.
std::string with_options(const std::string& id, std::string text, std::size_t cards, bool second_wanted = false) {
    if (id == "light-edge") return text + " with --light-even";
    if (id == "light-uneven") {
        if (second_wanted)
            text +=
                "; dyed wood may look other than bare wood tells under a second lamp: name that one with "
                "--second-light";
        if (cards < 2) text += "; more cards (--card again) would make it surer";
    }
    if (id == "light-or-wood")
        return text +
               ". If it is the light, photograph with two or three cards and say where they lie (--card again); if the "
               "light was even, --light-even says so";
    if (id == "photo-scale") return text + ". Say how much of the board a pixel shows with --mm-per-px";
    return text;
}

template <class F>
auto in_photo(const std::string& file, const F& f) {
    try {
        return f();
    } catch (const photo::PhotoFault& fault) {
        throw scene::InputError(fault.id, {file}, with_options(fault.id, fault.what(), 0));
    }
}

// The rectangle within the corners, and everything marked in the picture brought there.
photo::Squared squared_up(const photo::Pixels& whole, photo::Placing& placing, const BoardPhotoQuestion& q) {
    const auto [width, height] = q.corners_mm;
    auto out = photo::squared(whole, *q.corners, height > 0 ? width / height : 0, q.threads);
    if (width > 0) placing.mm_per_px = width / out.pixels.width;
    placing.whole = &whole;
    placing.from_whole = out.from_whole;
    placing.boards.clear();
    for (std::size_t k = 0; k < q.boards.size(); ++k) {
        placing.boards.push_back(photo::carried(q.boards[k], out));
        if (k < placing.grains.size() && placing.grains[k])
            placing.grains[k] = photo::carried_direction(*placing.grains[k], q.boards[k], out.from_whole);
    }
    return out;
}

bool any_soaks_in(const scene::Scene& scene, const std::vector<std::size_t>& shown) {
    return std::any_of(shown.begin(), shown.end(),
                       [&](std::size_t i) { return schedule::soaks_in(scene.finishes[i], scene.materials); });
}

void warn(BoardPhoto& out, const std::string& file) {
    if (!out.correction.promise) {
        out.warnings.push_back({"no-card",
                                {file},
                                "no card: the middle of the picture was taken to be bare " + out.wood +
                                    " as the library has it. Colors are relative and no promise"});
    }
    for (const auto& note : out.correction.notes)
        if (photo::worth_telling(note, out.found_light)) out.warnings.push_back({note.id, {file}, note.text});
    if (out.correction.promise && out.bare.to_prediction > other_wood) {
        const auto rounded = base::shortest(std::round(10 * out.bare.to_prediction) / 10);
        const auto at = out.doubtful() ? out.warnings.begin() : out.warnings.end();
        out.warnings.insert(
            at, {"photo-other-wood",
                 {file},
                 "the board in the picture is ΔE00 " + rounded + " from bare " + out.wood +
                     " as the library has it: it is " + color::describe(out.bare.prediction.lab, out.bare.board.lab) +
                     (out.doubtful() ? ". It may not be the board at all: look at the pictures" : "") +
                     ". It was worked out as such a board of that wood; if it is another wood, name it in [wood], or "
                     "give a "
                     "reading of the board"});
    }
}

}  // namespace

std::vector<std::uint8_t> read_picture(const std::string& file) {
    namespace fs = std::filesystem;
    std::error_code error;
    const auto status = fs::status(file, error);
    if (scene::lies_in_bundle(file)) {
        const auto held = scene::read_bytes(file, largest_picture_file);
        return {held.begin(), held.end()};
    }
    if (!fs::exists(status))
        throw scene::InputError("picture-missing", {file},
                                "there is no such file; a JPEG or PNG photograph was expected");
    if (fs::is_directory(status))
        throw scene::InputError("picture-directory", {file}, "this is a folder; a JPEG or PNG photograph was expected");
    if (!fs::is_regular_file(status))
        throw scene::InputError("picture-unreadable", {file}, "this is not a regular file; save the photograph first");
    scene::note_read(file);
    const auto size = fs::file_size(file, error);
    if (size > largest_picture_file) {
        throw scene::InputError(
            "picture-size", {file},
            "the file has " + std::to_string(size / 1'000'000) + " MB; up to 1000 are read. Is it a photograph?");
    }
    std::ifstream in(file, std::ios::binary);
    std::vector<std::uint8_t> bytes(static_cast<std::size_t>(size));
    if (size > 0) in.read(reinterpret_cast<char*>(bytes.data()), static_cast<std::streamsize>(size));
    if (!in) throw scene::InputError("picture-unreadable", {file}, "the file cannot be read");
    return bytes;
}

BoardPhoto board_photo(const scene::Scene& scene, const scene::Library& library, const appearance::Solver& solver,
                       const BoardPhotoQuestion& question, const PhotoSink& sink, const Going& going) {
    if (question.cards.empty() && !question.no_card)
        throw scene::InputError("card-missing", {question.photo}, without_card);
    const auto list = chosen(scene, question.finishes);
    const std::string light = question.light.empty() ? scene.look.lights.front() : question.light;
    const auto view = weights_of(library, light, scene.look.observer);
    const auto lamp = weights_of(library, question.photo_light, scene.look.observer);
    const auto& wood_material = scene.materials.at(scene.wood);
    const Worker worker{scene, solver, std::get<material::Wood>(wood_material.data)};

    BoardPhoto out;
    out.scene = scene.title;
    out.wood = wood_material.name;
    out.light = light;
    out.observer = scene.look.observer;
    out.geometry = scene.look.geometry;
    out.question = question;
    out.warnings = scene.warnings;

    // Every finish is worked out before the picture is opened: a schedule at fault is told at once.
    std::vector<SeenColor> predictions;
    for (const auto i : list) {
        int step = 0;
        try {
            const auto worked =
                appearance::stages(scene.materials, scene.wood, scene.finishes[i], scene.look.geometry, solver, &step);
            predictions.push_back(see(worked.stages.back().reading.total(), light, view));
        } catch (const schedule::Fault& fault) {
            throw scene.at(fault, i, static_cast<std::size_t>(std::max(step, 0)));
        }
    }
    const schedule::Finish nothing{"bare", {}};
    const auto bare_spectra = worker.spectra(nothing);
    const appearance::ToneTable bare(bare_spectra, lamp);
    photo::PhotoLimits limits;
    limits.pictures = list.size() + 1;  // all are held, packed, until they are written
    const auto photo =
        in_photo(question.photo, [&] { return photo::read_photo(read_picture(question.photo), limits); });
    out.head = photo.head;
    for (const auto& note : photo.notes) out.warnings.push_back({note.id, {question.photo}, note.text});
    const auto bare_color = color::adapt(bare.reading(0, 1), bare.white(), color::srgb_white);
    if (!question.cards.empty())
        out.correction = in_photo(question.photo, [&] { return photo::by_card(photo.pixels, question.cards.front()); });
    photo::Placing placing{question.cards,
                           question.boards,
                           question.grains,
                           question.light_even,
                           question.mm_per_px,
                           question.threads,
                           nullptr,
                           {},
                           nullptr};
    // Lamps of two colors part wood and card, and bare wood and finished. Which lamp it is no picture tells: a filament
    // lamp and a white LED of one color part dyed wood from bare in opposite directions. So none is thought of unnamed.
    std::optional<color::Weights> second;
    std::optional<appearance::ToneTable> bare_in_second;
    if (!question.second_light.empty()) {
        second = weights_of(library, question.second_light, scene.look.observer);
        bare_in_second.emplace(bare_spectra, *second);
        placing.second_lamp = &*bare_in_second;
    }
    photo::Squared upright;
    if (question.corners) {
        upright = in_photo(question.photo, [&] { return squared_up(photo.pixels, placing, question); });
        out.squared_px = {upright.pixels.width, upright.pixels.height};
        if (upright.sides_assumed)
            out.warnings.push_back({"photo-sides",
                                    {question.photo},
                                    "the rectangle within the corners was taken to be " +
                                        base::fixed(upright.sides, 2) +
                                        " times as wide as high, by its perspective. Say its size with --corners-mm"});
    }
    const auto& pixels = question.corners ? upright.pixels : photo.pixels;
    if (!out.correction.promise)
        out.correction = in_photo(question.photo, [&] { return photo::by_wood(pixels, bare_color); });
    const auto board =
        in_photo(question.photo, [&] { return photo::PhotoBoard(pixels, out.correction, bare, worker.wood, placing); });
    const bool same_light = light == question.photo_light;
    out.found_light = board.light();
    out.mm_per_px = board.mm_per_px();
    for (const auto& note : board.notes(any_soaks_in(scene, list)))
        out.warnings.push_back({note.id,
                                {question.photo},
                                with_options(note.id, note.text, question.cards.size(),
                                             !second && board.light().color_change > photo::two_lamps)});
    // In another light than the photograph's there is no second lamp to see by.
    const auto unused = photo::second_lamp_unused(board.light(), same_light);
    const bool by_two = second && unused.empty();
    if (second && (!by_two || question.second_light == question.photo_light)) {
        const auto why = question.second_light == question.photo_light ? "it is the photograph's own light" : unused;
        out.warnings.push_back({"second-light-unused",
                                {question.photo},
                                "the second light " + question.second_light + " makes no difference here: " + why});
    }
    out.shade = board.shade();
    out.chroma_offset = board.chroma_offset();
    out.wood_share = board.wood_share();
    out.highlight_share = board.highlight_share();
    out.limited_share = board.limited_share();

    // The bare board in the look's light: as photographed if that is the photograph's own.
    auto first = same_light ? board.before() : board.finished({bare_spectra, view});
    const auto bare_stages = appearance::stages(scene.materials, scene.wood, nothing, scene.look.geometry, solver);
    out.bare = finish_of("bare", first, see(bare_stages.stages.front().reading.total(), light, view), view.white);
    sink(-1, first, out.bare);
    for (std::size_t k = 0; k < list.size(); ++k) {
        if (going.leave("pictures made", k + 1, list.size() + 1)) {
            out.warnings.push_back({"stopped",
                                    {question.photo},
                                    "stopped by hand: " + std::to_string(k) + " of " + std::to_string(list.size()) +
                                        " finishes were worked out"});
            break;
        }
        const auto& finish = scene.finishes[list[k]];
        const auto spectra = worker.spectra(finish);
        std::optional<appearance::ToneTable> in_second;
        if (by_two) in_second.emplace(spectra, *second);
        auto shown = board.finished({spectra, view}, in_second ? &*in_second : nullptr);
        auto what = finish_of(finish.name, shown, predictions[k], view.white);
        what.from_bare = color::delta_e_00(out.bare.board.lab, what.board.lab);
        const auto &before = out.bare.board.lab, &after = what.board.lab;
        what.difference = {after.l - before.l, after.a - before.a, after.b - before.b};
        what.words = color::describe(out.bare.board.lab, what.board.lab);
        what.findings = schedule::check_order(finish, scene.materials, &scene.wood_data());
        sink(static_cast<int>(k), shown, what);
        out.finishes.push_back(std::move(what));
    }
    warn(out, question.photo);
    return out;
}

}  // namespace foretone::job
