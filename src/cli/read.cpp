// `read`: boards read one after another with spotread, each under its name, kept as soon as it is read.

#include <poll.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <deque>
#include <iostream>
#include <memory>

#include "common.hpp"
#include "foretone/base/text.hpp"
#include "foretone/base/utf8.hpp"
#include "foretone/job/spotread.hpp"
#include "foretone/measure/read.hpp"
#include "foretone/report/readings_json.hpp"
#include "foretone/scene/output.hpp"
#include "foretone/scene/text_file.hpp"
#include "foretone/scene/version.hpp"
#include "instrument.hpp"
#include "terminal.hpp"
#include "watch.hpp"

namespace foretone::cli {
namespace {
using job::Heard;

struct ReadOptions : Common {
    std::string file, program = "spotread";
    std::vector<std::string> names;
    int port = 0;
};

/// The file as it grows.
class Kept {
public:
    explicit Kept(const std::string& file) : file_(file) {
        if (!std::filesystem::exists(file)) {
            text_ = std::string("# written by foretone ") + scene::version +
                    "\n# What spotread printed, each reading after its name.\n";
            return;
        }
        text_ = scene::read_text(file);
        if (measure::format_of(text_) != measure::Format::argyll)
            throw scene::InputError("readings-other", {file},
                                    "this file holds other readings than spotread's; give this one another name");
        for (const auto& r : measure::read(text_).readings) names_.push_back(r.name);
        if (!text_.ends_with('\n')) text_ += '\n';
    }

    bool has(const std::string& name) const { return std::find(names_.begin(), names_.end(), name) != names_.end(); }

    /// Puts a reading on the disk. Throws measure::Refused if it cannot be read, and then keeps nothing.
    measure::Reading add(const std::string& name, const std::string& printed) {
        const std::string block = "name: " + name + "\n" + printed;
        auto reading = measure::read(block).readings.at(0);
        before_ = text_;
        text_ += block;
        names_.push_back(name);
        write();
        return reading;
    }

    /// Takes the last one back.
    void drop_last() {
        text_ = before_;
        names_.pop_back();
        write();
    }

private:
    void write() const {
        auto out = scene::OutputFile::text(file_, text_);
        out.otherwise = "choose another name";
        out.lasting = out.grows = true;
        scene::write_all({out});
    }

    std::string file_, text_, before_;
    std::vector<std::string> names_;
};

std::string checked_name(const std::string& name, const Kept& kept) {
    if (name.empty() || base::has_control(name))
        throw scene::InputError("name-empty", {"--name"}, "a reading needs a name, of visible letters");
    if (kept.has(name))
        throw scene::InputError("reading-known", {"--name"},
                                "'" + name + "' is in this file already; give the new reading another name");
    return name;
}

/// One sitting: what the instrument says on one side, the person's keys on the other.
class Sitting {
public:
    Sitting(const ReadOptions& o, Kept& kept) : options_(o), kept_(kept), instrument_(o.program, arguments(o)) {}

    void run() {
        say("Foretone reads boards with " + options_.program +
            ". Enter, or the instrument's own button, reads; b and Enter: the one before once more; l and Enter: leave "
            "this one out; q and Enter: end. What is read is kept at once.\n");
        while (!over_ && !stop_asked()) {
            if (take_line()) continue;
            listen();
        }
        if (!over_) say("\nstopped by hand\n");
    }

    const std::vector<measure::Reading>& readings() const { return readings_; }
    /// Did the program end by itself before all was read?
    bool died() const { return died_; }
    const std::string& ended_with() const { return ended_with_; }

private:
    enum class Waits { nothing, spot, other };

    static std::vector<std::string> arguments(const ReadOptions& o) {
        std::vector<std::string> out = {"-s"};
        if (o.port > 0) out.insert(out.end(), {"-c", std::to_string(o.port)});
        return out;
    }

    // To the person, wherever the results go.
    void say(const std::string& text) const {
        (options_.json_to_stdout() ? std::cerr : std::cout) << text << std::flush;
    }

    void listen() {
        pollfd watched[2] = {{instrument_.output(), POLLIN, 0}, {input_over_ ? -1 : STDIN_FILENO, POLLIN, 0}};
        const int n = poll(watched, 2, 400);
        if (n < 0) return;  // a signal
        if (n == 0) {
            if (waits_ == Waits::nothing)
                if (const auto asked = ear_.silence()) answer(*asked);
            return;
        }
        char bytes[4096];
        if (watched[0].revents != 0) {
            const auto got = ::read(instrument_.output(), bytes, sizeof bytes);
            if (got <= 0) {
                if (got < 0 && errno == EINTR) return;
                over_ = died_ = true;
                ended_with_ = ear_.last_words();
                return;
            }
            for (const auto& h : ear_.hear({bytes, static_cast<std::size_t>(got)}))
                if (!over_) answer(h);
        }
        if (watched[1].revents != 0) {
            const auto got = ::read(STDIN_FILENO, bytes, sizeof bytes);
            if (got <= 0) {
                input_over_ = true;
                return;
            }
            typed_.append(bytes, static_cast<std::size_t>(got));
            for (auto at = typed_.find('\n'); at != std::string::npos; at = typed_.find('\n')) {
                lines_.emplace_back(base::trimmed(typed_.substr(0, at)));
                typed_.erase(0, at + 1);
            }
        }
    }

    void answer(const Heard& heard) {
        switch (heard.kind) {
            case Heard::Kind::ready:
                waits_ = Waits::spot;
                return ask_for_spot();
            case Heard::Kind::reading:
                return keep(heard.text);
            case Heard::Kind::tile:
                waits_ = Waits::other;
                return say("\nThe instrument asks: " + heard.text + ". Then press Enter.\n");
            case Heard::Kind::misread:
                waits_ = Waits::other;
                return say("Not read: " + heard.text + ". Set it flat on the board and press Enter.\n");
            case Heard::Kind::waits:
                waits_ = Waits::other;
                return say("The instrument asks: " + heard.text + "\nEnter goes on.\n");
        }
    }

    void ask_for_spot() const {
        say("\n" + std::to_string(next_ + 1) + " of " + std::to_string(options_.names.size()) + ": " +
            options_.names[next_] + "\n   Set the instrument on it and press Enter.\n");
    }

    void keep(const std::string& printed) {
        waits_ = Waits::nothing;
        const auto& name = options_.names[next_];
        try {
            readings_.push_back(kept_.add(name, printed));
        } catch (const measure::Refused& e) {
            return say("   Not kept: " + std::string(e.what()) + ". Once more.\n");
        }
        const auto& r = readings_.back();
        say("   kept: " + name + (r.lab ? ", L* a* b* " + lab_text(*r.lab) + " under " + r.light : "") + "\n");
        dropped_ = false;
        if (++next_ == options_.names.size()) over_ = true;
    }

    // What the person typed, when the instrument waits. Was there anything?
    bool take_line() {
        if (waits_ == Waits::nothing || lines_.empty()) return false;
        const auto line = base::lower(lines_.front());
        lines_.pop_front();
        if (line == "q") {
            over_ = true;
        } else if (waits_ == Waits::spot && line == "l") {
            if (++next_ == options_.names.size())
                over_ = true;
            else
                ask_for_spot();
        } else if (waits_ == Waits::spot && line == "b") {
            back();
        } else if (line.empty()) {
            waits_ = Waits::nothing;
            instrument_.press(' ');
        } else {
            say("   '" + line.substr(0, 20) + "' is none of Enter, b, l and q\n");
        }
        return true;
    }

    void back() {
        if (readings_.empty() || dropped_ || readings_.back().name != options_.names[next_ - (next_ > 0)])
            return say("   there is none before that can be read again\n");
        kept_.drop_last();
        readings_.pop_back();
        dropped_ = true;
        --next_;
        ask_for_spot();
    }

    const ReadOptions& options_;
    Kept& kept_;
    Instrument instrument_;
    job::SpotreadEar ear_;
    std::vector<measure::Reading> readings_;
    std::deque<std::string> lines_;
    std::string typed_, ended_with_;
    std::size_t next_ = 0;
    Waits waits_ = Waits::nothing;
    bool over_ = false, input_over_ = false, died_ = false, dropped_ = false;
};

int run_read(const ReadOptions& o) {
    end_progress();  // the line is the person's now
    Kept kept(o.file);
    std::vector<std::string> seen;
    for (const auto& name : o.names) {
        if (std::find(seen.begin(), seen.end(), checked_name(name, kept)) != seen.end())
            throw scene::InputError("reading-known", {"--name"}, "'" + name + "' is named twice");
        seen.push_back(name);
    }
    const Stoppable by_hand;
    Sitting sitting(o, kept);
    sitting.run();
    const auto& all = sitting.readings();
    if (sitting.died())
        std::cerr << "error: " << o.program << " ended" << (sitting.ended_with().empty() ? "" : ": ")
                  << sitting.ended_with() << " [instrument-ended]\n";
    put_json(o, report::readings_json(o.file, all));
    if (o.speaks()) {
        std::cout << "\n"
                  << all.size() << (all.size() == 1 ? " reading" : " readings") << " kept"
                  << (all.empty() ? "" : " in " + o.file) << "\n";
        if (!all.empty())
            std::cout << "now:     foretone color " << o.file << " --sample \"" << all.front().name << "\"\n";
    }
    return sitting.died() ? 1 : 0;
}

}  // namespace

void add_read(CLI::App& app, Verb& chosen) {
    auto options = std::make_shared<ReadOptions>();
    auto* verb =
        app.add_subcommand("read", "Boards read with an instrument, each under its name (by Argyll's spotread)");
    auto& o = *options;
    verb->add_option("FILE", o.file, "Where the readings are kept; it may hold earlier ones")->required();
    verb->add_option("--name", o.names, "What is read, in order: 'bare', 'dyed', 'one coat'; repeat it")
        ->required()
        ->type_name("NAME")
        ->allow_extra_args(false);
    verb->add_option("--program", o.program, "The program that reads (default: spotread)")->type_name("PATH");
    verb->add_option("--port", o.port, "Which instrument, if there are several (spotread's -c)")
        ->check(CLI::Range(1, 99));
    add_common(*verb, *options);
    verb->callback([options, &chosen] { chosen = [options] { return run_read(*options); }; });
}

}  // namespace foretone::cli
