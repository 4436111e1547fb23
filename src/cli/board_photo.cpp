#include "board_photo.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <iostream>
#include <map>
#include <optional>

#include "findings.hpp"
#include "foretone/base/number.hpp"
#include "foretone/layout/photo_page.hpp"
#include "foretone/report/json.hpp"
#include "foretone/format/png.hpp"
#include "foretone/job/stoppable.hpp"
#include "foretone/job/cautions.hpp"
#include "foretone/scene/output.hpp"
#include "terminal.hpp"
#include "watch.hpp"

namespace foretone::cli {
namespace {

constexpr int pair_width = 1000, page_width = 760, panel_height = 1000;
constexpr const char* no_promise = "No card in the photograph: colors are relative, no color is promised.";
constexpr const char* not_the_sample = "Screens and prints are not the sample: make one board before the job.";

std::string light_text(const job::BoardPhotoQuestion& q) {
    return "photographed under " + (q.light_assumed
                                        ? "a light taken to be " + q.photo_light + "; name the light with --photo-light"
                                        : q.photo_light);
}

std::optional<light::Box> box_of(const std::string& text) {
    int v[4] = {};
    const char* at = text.data();
    const char* const end = at + text.size();
    for (int i = 0; i < 4; ++i) {
        while (at != end && *at == ' ') ++at;
        const auto r = std::from_chars(at, end, v[i]);
        if (r.ec != std::errc{}) return std::nullopt;
        at = r.ptr;
        while (at != end && *at == ' ') ++at;
        if (i < 3 && (at == end || *at++ != ',')) return std::nullopt;
    }
    if (at != end) return std::nullopt;
    return light::Box{v[0], v[1], v[2], v[3]};
}

// "600x200" as two numbers above 0.
std::optional<std::array<double, 2>> sides_of(const std::string& text) {
    const auto times = text.find_first_of("xX");
    if (times == std::string::npos) return std::nullopt;
    const double w = base::number_in(text.substr(0, times)).value_or(0),
                 h = base::number_in(text.substr(times + 1)).value_or(0);
    if (!(w > 0 && h > 0 && std::isfinite(w / h) && std::isfinite(h / w))) return std::nullopt;
    return std::array{w, h};
}

// A rectangle "X,Y,W,H", or corners "X,Y X,Y X,Y …" in order around.
std::optional<photo::Polygon> polygon_of(const std::string& text) {
    if (const auto b = box_of(text)) {
        const double x = b->x, y = b->y;
        if (b->width <= 0 || b->height <= 0) return std::nullopt;
        return photo::Polygon{{x, y}, {x + b->width, y}, {x + b->width, y + b->height}, {x, y + b->height}};
    }
    photo::Polygon out;
    const char* at = text.data();
    const char* const end = at + text.size();
    while (at != end) {
        int v[2] = {};
        for (int i = 0; i < 2; ++i) {
            const auto r = std::from_chars(at, end, v[i]);
            if (r.ec != std::errc{}) return std::nullopt;
            at = r.ptr;
            if (i == 0 && (at == end || *at++ != ',')) return std::nullopt;
        }
        out.push_back({double(v[0]), double(v[1])});
        if (at != end && *at != ' ') return std::nullopt;
        while (at != end && *at == ' ') ++at;
    }
    if (out.size() < 3) return std::nullopt;
    return out;
}

// An area, and " grain DEGREES" after it if its grain's direction is said.
struct MarkedPart {
    photo::Polygon corners;
    std::optional<double> grain;
};

std::optional<MarkedPart> part_of(const std::string& text) {
    const auto word = text.find(" grain ");
    const auto corners = polygon_of(text.substr(0, word));
    if (!corners) return std::nullopt;
    if (word == std::string::npos) return MarkedPart{*corners, {}};
    const auto degrees = base::number_in(text.substr(word + 7));
    if (!degrees || !(std::abs(*degrees) <= 360)) return std::nullopt;
    return MarkedPart{*corners, degrees};
}

std::string doubt(const job::BoardPhoto& b) {
    return "What was found is ΔE00 " + fixed(b.bare.to_prediction, 0) + " from bare " + b.wood +
           ": it may not be the board.";
}

// Files of one run: every picture as soon as it is made, small copies kept for the pages.
class Album {
public:
    Album(const scene::Scene& scene, std::filesystem::path folder)
        : title_(scene.title),
          folder_(std::move(folder)),
          stem_(scene::file_stem(scene.file) + "-photo"),
          words_(scene::finish_words(scene)) {}

    void add(int index, photo::FinishedPhoto& photo, const job::PhotoFinish& what, bool promise) {
        const std::string name = stem_ + "-" + (index < 0 ? "bare" : words_.at(what.name));
        const auto small = layout::shrunk(photo.image, page_width, panel_height);
        const auto larger = layout::shrunk(photo.image, pair_width, panel_height);
        if (index < 0) {
            bare_ = {larger, "bare", {}};
            bare_.captions = captions(what, index, promise);
        } else {
            layout::PhotoPage page{title_,
                                   "before and after",
                                   {bare_, {larger, what.name, captions(what, index, promise)}},
                                   {not_the_sample},
                                   promise ? "" : no_promise};
            pairs_.push_back(file(name + "-pair", layout::photo_page(page), 150, what.name));
        }
        panels_.push_back({small, index < 0 ? "bare" : what.name, captions(what, index, promise)});
        if (!promise) photo.image = layout::with_strip(photo.image, no_promise);
        pictures_.push_back(file(name, photo.image, 300, what.name));
        photo.image = {};
    }

    std::vector<scene::OutputFile> files(const job::BoardPhoto& b) {
        layout::PhotoPage page{title_,
                               b.wood + " · your board · light " + b.light + " · " + light_text(b.question),
                               std::move(panels_),
                               {},
                               {}};
        page.notes.push_back(
            b.correction.promise
                ? "Colors by the card in the photograph. ΔE00 against the prediction for the library's wood is "
                  "what sets this board apart from it."
                : "Colors are relative: the middle of the photograph was taken to be the library's bare wood.");
        for (const auto& w : b.warnings)
            if (w.id == "light-uneven" || w.id == "light-or-wood" || w.id == "light-not-judged" ||
                w.id == "photo-blotches")
                page.notes.push_back(w.text);
        page.notes.emplace_back(not_the_sample);
        if (!b.correction.promise) page.alarm = no_promise;
        if (b.doubtful()) page.alarm = doubt(b);
        auto out = std::move(pictures_);
        out.insert(out.end(), std::make_move_iterator(pairs_.begin()), std::make_move_iterator(pairs_.end()));
        out.push_back(file(stem_, layout::photo_page(page), 150, "all finishes"));
        return out;
    }

private:
    static std::vector<std::string> captions(const job::PhotoFinish& what, int index, bool promise) {
        std::vector<std::string> parts, out;
        if (promise) parts.push_back("mean L* a* b* " + lab_text(what.board.lab));
        if (what.out_of_gamut > 0.005)
            parts.push_back(fixed(100 * what.out_of_gamut, 0) + " % beyond the screen: less chroma shown");
        if (!parts.empty()) out.push_back(parts.front() + (parts.size() > 1 ? " · " + parts.back() : ""));
        if (index >= 0)
            out.push_back(what.words + " than bare, ΔE00 " + fixed(what.from_bare, 1) +
                          (promise ? " · ΔE00 " + fixed(what.to_prediction, 1) + " to the prediction" : ""));
        return out;
    }

    scene::OutputFile file(const std::string& name, const light::Image& image, double dpi,
                           const std::string& what) const {
        return {folder_ / (name + ".png"),
                format::encode_png(image, {dpi, title_ + ": " + what, not_the_sample, true})};
    }

    std::string title_;
    std::filesystem::path folder_;
    std::string stem_;
    std::map<std::string, std::string> words_;
    layout::PhotoPanel bare_;
    std::vector<layout::PhotoPanel> panels_;
    std::vector<scene::OutputFile> pictures_, pairs_;
};

std::string promised_table(const job::BoardPhoto& b) {
    std::vector<std::vector<std::string>> rows = {
        {"", "", "board L*   a*   b*", "prediction", "dE00", "than bare", ""}};
    const Chips how = chips();
    const auto row = [&](const job::PhotoFinish& f, bool bare) {
        rows.push_back({chip(f.board.screen.code, how), marked(f.name, f.findings), lab_text(f.board.lab),
                        lab_text(f.prediction.lab), fixed(f.to_prediction, 1), bare ? "" : fixed(f.from_bare, 1),
                        bare ? "" : f.words});
    };
    row(b.bare, true);
    for (const auto& f : b.finishes) row(f, false);
    return table(rows, {false, false, true, true, true, true, false});
}

// Without a card: what the finishes change, and no color.
std::string relative_table(const job::BoardPhoto& b) {
    std::vector<std::vector<std::string>> rows = {{"", "than bare dL*  da*  db*", "dE00", ""}};
    for (const auto& f : b.finishes)
        rows.push_back({marked(f.name, f.findings), lab_text(f.difference), fixed(f.from_bare, 1), f.words});
    return table(rows, {false, true, true, false});
}

void print(const job::BoardPhoto& b) {
    const auto share = [](double v) { return fixed(100 * v, 1) + " %"; };
    if (b.doubtful()) std::cout << "warning: " << doubt(b) << "\n\n";
    std::cout << b.scene << "\n"
              << b.wood << " · your board from " << b.question.photo << " (" << b.head.format << ", " << b.head.width
              << " x " << b.head.height << ") · light " << b.light << " · " << light_text(b.question) << "\n";
    if (b.correction.promise) {
        std::cout << "card: " << fixed(100 * b.correction.card.brightness, 1) << " % of white in the picture, exposure "
                  << (b.correction.stops >= 0 ? "+" : "") << fixed(b.correction.stops, 2) << " stops, cast a* "
                  << fixed(b.correction.card.as_seen.a, 1) << " b* " << fixed(b.correction.card.as_seen.b, 1)
                  << " taken out\n";
    } else {
        std::cout << no_promise << "\n";
    }
    std::cout << "board: " << share(b.wood_share) << " of the picture (of it " << share(b.highlight_share)
              << " highlights kept on top); the rest left as it is\n\n";
    std::cout << (b.correction.promise ? promised_table(b) : relative_table(b));
    for (const auto& f : b.finishes) std::cout << findings_text(f.name, f.findings);
}

}  // namespace

void add_board_photo(CLI::App& verb, BoardPhotoOptions& o) {
    auto* photo =
        verb.add_option("--photo", o.photo, "Photograph of your own bare board (JPEG or PNG), with a card in it")
            ->type_name("IMG");
    auto* card = verb.add_option("--card", o.cards,
                                 "Where the card is: left, top, width, height in pixels of the picture as seen; again "
                                 "for every card that lies in it, the nearest to the middle first")
                     ->type_name("X,Y,W,H");
    card->needs(photo)->check([](const std::string& text) {
        return box_of(text) ? std::string()
                            : "--card is X,Y,W,H in whole pixels, for example 120,80,300,300, not '" + text + "'";
    });
    card->allow_extra_args(false);
    verb.add_option(
            "--board", o.boards,
            "What to finish, where the picture has more than one board or a bench of the wood's color: X,Y,W,H, "
            "or corners in order around: \"X,Y X,Y X,Y\"; again for every part. \" grain 90\" after it says that its "
            "grain stands upright (0: lies; else found from the picture)")
        ->type_name("AREA")
        ->allow_extra_args(false)
        ->needs(photo)
        ->check([](const std::string& text) {
            return part_of(text) ? std::string()
                                 : "--board is X,Y,W,H in whole pixels, for example 40,300,900,420, or three corners "
                                   "and more, for example \"40,300 940,310 930,720\", with \" grain 90\" after it if "
                                   "you like, not '" +
                                       text + "'";
        });
    auto* corners =
        verb.add_option("--corners", o.corners,
                        "Takes perspective out: the four corners of a rectangle that is to be squared up and shown "
                        "alone, upper left, upper right, lower right, lower left: \"X,Y X,Y X,Y X,Y\"")
            ->type_name("AREA")
            ->needs(photo)
            ->check([](const std::string& text) {
                const auto p = polygon_of(text);
                return p && !box_of(text) && p->size() == 4
                           ? std::string()
                           : "--corners takes four corners in order around, for example "
                             "\"40,300 940,310 930,720 50,700\", not '" +
                                 text + "'";
            });
    verb.add_option("--corners-mm", o.corners_mm, "Width and height between the corners, for example 600x200")
        ->type_name("WxH")
        ->needs(corners)
        ->check([](const std::string& text) {
            return sides_of(text)
                       ? std::string()
                       : "--corners-mm takes two numbers of millimetres above 0 with an x between, not '" + text + "'";
        });
    verb.add_flag("--light-even", o.light_even, "The light was even: what changes over the board is the wood's")
        ->needs(photo);
    verb.add_option("--card-reflectance", o.card_reflectance,
                    "Reflectance of the card (default 0.90, a white card; a grey card is 0.18)")
        ->check(CLI::Range(0.02, 1.0) & finite())
        ->needs(photo);
    verb.add_flag("--no-card", o.no_card, "Go on without a card: colors are relative and not promised")
        ->needs(photo)
        ->excludes(card);
    verb.add_option("--photo-light", o.photo_light,
                    "Light under which the photograph was taken (default D65, daylight)")
        ->type_name("ID")
        ->needs(photo);
    verb.add_option("--second-light", o.second_light,
                    "Light of a second lamp, where two of different color light the board")
        ->type_name("ID")
        ->needs(photo);
    for (const auto* drawn : {"--cut", "--size-mm", "--px", "--seed", "--view", "--tilt"})
        if (auto* option = verb.get_option_no_throw(drawn)) photo->excludes(option);
}

int board_photo(const Common& common, const std::string& scene_file, const std::vector<std::string>& finishes,
                const std::vector<std::string>& lights, const BoardPhotoOptions& options, double mm_per_px) {
    if (lights.size() > 1)
        throw scene::InputError("photo-lights", {options.photo},
                                "a photograph is shown in one light at a time; give one --light");
    const auto lib = library(common);
    const auto scene = scene::read_scene(scene_file, lib);
    job::BoardPhotoQuestion question;
    question.photo = options.photo;
    for (const auto& text : options.cards)
        if (const auto box = box_of(text)) question.cards.push_back({*box, options.card_reflectance});
    for (const auto& text : options.boards)
        if (const auto p = part_of(text)) {
            question.boards.push_back(p->corners);
            question.grains.push_back(p->grain);
        }
    if (const auto p = polygon_of(options.corners); p && p->size() == 4)
        question.corners = {(*p)[0], (*p)[1], (*p)[2], (*p)[3]};
    if (const auto s = sides_of(options.corners_mm)) question.corners_mm = *s;
    question.light_even = options.light_even;
    question.mm_per_px = mm_per_px;
    question.no_card = options.no_card;
    question.light_assumed = options.photo_light.empty();
    if (!question.light_assumed) question.photo_light = options.photo_light;
    question.second_light = options.second_light;
    question.finishes = finishes;
    if (!lights.empty()) question.light = lights.front();

    Album album(scene, common.out);
    const bool promise = !question.cards.empty();
    const Stoppable by_hand;
    const auto b = job::board_photo(scene, lib, appearance::two_flux_solver(), question,
                                    [&](int index, photo::FinishedPhoto& photo, const job::PhotoFinish& what) {
                                        album.add(index, photo, what, promise);
                                    },
                                    {tell, stop_asked});
    auto files = album.files(b);
    std::vector<std::string> names;
    for (const auto& f : files) names.push_back(f.path.string());
    const std::string json = common.json.empty() ? "" : report::board_photo_json(b, names, scene);
    deliver(common, std::move(files), json);
    print_warnings(common, b.warnings);
    if (common.speaks()) {
        print(b);
        std::cout << "\n" << not_the_sample << "\nopen:";
        for (std::size_t i = names.size(); i-- > 0;) std::cout << "\n  " << names[i];
        std::cout << "\n";
    }
    print_cautions(common, job::cautions_of(scene));
    return 0;
}

}  // namespace foretone::cli
