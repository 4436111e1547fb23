/// The notebook under writers at once, some of them killed: nothing is lost that was said to be kept.

#include <catch2/catch.hpp>
#include <signal.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <map>
#include <random>
#include <set>

#include "foretone/scene/notebook.hpp"
#include "support/folder.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

scene::NotebookEntry note_of(const std::string& words) {
    scene::NotebookEntry e;
    e.date = "2026-03-02", e.finish = "x", e.recipe = "oil-varnish", e.note = words;
    return e;
}

struct Told {
    int writer, entry, id;
};

// A writer: keeps entries from `first` on, and says of each that it is kept only when it is.
[[noreturn]] void write_entries(const std::filesystem::path& scene, int writer, int first, int count, int tell) {
    for (int i = first; i < count; ++i) {
        const auto note = "writer " + std::to_string(writer) + " entry " + std::to_string(i);
        const Told told{writer, i, scene::keep_entry(scene, "Stool", note_of(note)).id};
        if (write(tell, &told, sizeof told) != sizeof told) _exit(2);
    }
    _exit(0);
}

struct Writers {
    const std::filesystem::path scene;
    int count, kills;
    int pipe_ends[2] = {};
    std::map<pid_t, int> running = {};  // writer by process
    std::vector<int> next = {};         // of each writer: its first entry that was not said to be kept
    std::vector<Told> told = {};
    std::mt19937 seeded{20};

    void start(int writer) {
        const pid_t child = fork();
        REQUIRE(child >= 0);
        if (child == 0) write_entries(scene, writer, next[static_cast<std::size_t>(writer)], count, pipe_ends[1]);
        running[child] = writer;
    }

    void take(const Told& t) {
        told.push_back(t);
        next[static_cast<std::size_t>(t.writer)] = t.entry + 1;
    }

    // Any of them, wherever it is in its work; what it told before stands in the pipe.
    void kill_one() {
        auto at = running.begin();
        std::advance(at, static_cast<std::ptrdiff_t>(seeded() % running.size()));
        const auto [child, writer] = *at;
        usleep(static_cast<useconds_t>(seeded() % 3000));
        kill(child, SIGKILL);
        waitpid(child, nullptr, 0);
        running.erase(child);
        --kills;
        killed.insert(writer);
    }

    std::set<int> killed = {};  // to be started again when the pipe has been read

    void run(int writers) {
        REQUIRE(pipe(pipe_ends) == 0);
        next.assign(static_cast<std::size_t>(writers), 0);
        for (int w = 0; w < writers; ++w) start(w);
        std::size_t due = 1;
        while (!running.empty() || !killed.empty()) {
            Told t{};
            if (read_one(t)) {
                take(t);
                if (kills > 0 && told.size() >= due && !running.empty()) {
                    due = told.size() + 1 + seeded() % 8;
                    kill_one();
                }
                continue;
            }
            for (const int w : killed) start(w);
            killed.clear();
            reap();
        }
        Told t{};
        while (read_one(t)) take(t);
    }

    // One message, if one stands in the pipe or comes soon.
    bool read_one(Told& t) {
        fd_set set;
        FD_ZERO(&set);
        FD_SET(pipe_ends[0], &set);
        timeval soon{0, 2000};
        return select(pipe_ends[0] + 1, &set, nullptr, nullptr, &soon) == 1 &&
               read(pipe_ends[0], &t, sizeof t) == sizeof t;
    }

    void reap() {
        int status = 0;
        for (pid_t done; (done = waitpid(-1, &status, WNOHANG)) > 0; running.erase(done)) {
            CHECK(WIFEXITED(status));
            CHECK(WEXITSTATUS(status) == 0);
        }
    }
};

void stand_writers(const std::string& folder, int writers, int entries, int kills) {
    const Folder f(folder);
    Writers w{f.write("s.toml", "format = 1\n"), entries, kills};
    w.run(writers);
    CHECK(w.kills == 0);
    REQUIRE(w.told.size() >= static_cast<std::size_t>(writers * entries));
    const auto book = scene::read_notebook(f / "s.toml");
    CHECK(book.notes.empty());
    std::map<int, std::string> by_id;
    for (const auto& e : book.entries) CHECK(by_id.emplace(e.id, e.note).second);
    std::size_t lost = 0;
    for (const auto& t : w.told)
        lost += by_id[t.id] != "writer " + std::to_string(t.writer) + " entry " + std::to_string(t.entry);
    CHECK(lost == 0);
    // A writer that was killed between keeping and saying so does the entry again: at most one more a kill.
    CHECK(book.entries.size() <= static_cast<std::size_t>(writers * entries + kills));
    close(w.pipe_ends[0]);
    close(w.pipe_ends[1]);
}

}  // namespace

TEST_CASE("writers at once, killed at random, lose nothing that was said to be kept") {
    stand_writers("notebook-writers", 4, 12, 8);
}

TEST_CASE("eight writers of 200 entries, killed at random", "[long]") { stand_writers("notebook-many", 8, 200, 120); }

TEST_CASE("an entry that was cut off is told, and kept aside when the next is added") {
    const Folder f("notebook-torn");
    const auto scene = f.write("s.toml", "format = 1\n");
    scene::keep_entry(scene, "Stool", note_of("first"));
    const auto whole = f.read("s.job.toml");
    scene::keep_entry(scene, "Stool", note_of("second"));
    const auto both = f.read("s.job.toml");
    std::size_t told = 0;
    for (std::size_t end = whole.size() + 2; end < both.size(); ++end) {
        f.write("s.job.toml", both.substr(0, end));
        if (both[end - 1] == '\n') continue;  // cut between lines: a shorter entry, or a fault of its keys
        INFO(both.substr(whole.size(), end - whole.size()));
        const auto book = scene::read_notebook(scene);
        if (book.entries.size() == 2) continue;  // cut where a line could end
        REQUIRE(book.entries.size() == 1);
        REQUIRE(book.notes.size() == 1);
        CHECK(book.notes[0].id == "notebook-torn");
        ++told;
    }
    CHECK(told > 20);
    const auto torn = both.substr(whole.size() + 1, 30);
    f.write("s.job.toml", whole + "\n" + torn);
    const auto kept = scene::keep_entry(scene, "Stool", note_of("third"));
    REQUIRE(kept.notes.size() == 1);
    CHECK(kept.notes[0].text.find("s.job.torn.toml") != std::string::npos);
    CHECK(f.read("s.job.torn.toml") == torn);
    CHECK(f.read("s.job.toml").starts_with(whole));
    const auto book = scene::read_notebook(scene);
    REQUIRE(book.entries.size() == 2);
    CHECK(book.entries[1].note == "third");
    CHECK(book.notes.empty());
    f.write("s.job.toml", whole + "\n" + torn);
    scene::keep_entry(scene, "Stool", note_of("fourth"));
    CHECK(f.read("s.job.torn-2.toml") == torn);  // the first is not written over
}

TEST_CASE("a list in brackets takes no entry, and stays as it is") {
    const Folder f("notebook-brackets");
    const auto scene = f.write("s.toml", "format = 1\n");
    const std::string one = "{ id = 1, date = \"2026-03-01\", finish = \"x\", note = \"\"\"\n[[entry]]\n\"\"\" }";
    for (const auto& list : {std::string("[]"), "[ " + one + " ]"}) {
        const auto book = "format = 1\nentry = " + list + "\n";
        INFO(book);
        f.write("s.job.toml", book);
        CHECK_THROWS_AS(scene::keep_entry(scene, "Stool", note_of("a")), scene::InputError);
        CHECK(f.read("s.job.toml") == book);
    }
}

TEST_CASE("ids go on from the largest, and one that stands twice is told") {
    const Folder f("notebook-ids");
    const auto scene = f.write("s.toml", "format = 1\n");
    const std::string by_hand = "\n[[entry]]\ndate = \"2026-03-01\"\nfinish = \"x\"\n";
    f.write("s.job.toml", "format = 1\n" + by_hand + by_hand);
    CHECK(scene::keep_entry(scene, "Stool", note_of("a")).id == 3);
    f.write("s.job.toml", f.read("s.job.toml") + by_hand + "id = 40\n");
    CHECK(scene::keep_entry(scene, "Stool", note_of("b")).id == 41);
    CHECK(scene::read_notebook(scene).notes.empty());
    f.write("s.job.toml", f.read("s.job.toml") + by_hand + "id = 40\n");
    const auto book = scene::read_notebook(scene);
    REQUIRE(book.notes.size() == 1);
    CHECK(book.notes[0].id == "notebook-id-twice");
    CHECK(book.notes[0].text.find("id = 40") != std::string::npos);
}

TEST_CASE("a notebook behind a link keeps link and mode, and what is written with it is all or none") {
    const Folder f("notebook-link");
    const auto scene = f.write("s.toml", "format = 1\n");
    f.write("kept/book.toml", "format = 1\n");
    REQUIRE(chmod((f / "kept/book.toml").c_str(), 0600) == 0);
    std::filesystem::create_symlink("kept/book.toml", f / "s.job.toml");
    scene::keep_entry(scene, "Stool", note_of("a"));
    CHECK(std::filesystem::is_symlink(f / "s.job.toml"));
    struct stat s {};
    REQUIRE(stat((f / "kept/book.toml").c_str(), &s) == 0);
    CHECK((s.st_mode & 07777u) == 0600u);
    CHECK(scene::read_notebook(scene).entries.size() == 1);
    f.write("mine.json", "mine");
    CHECK_THROWS(scene::keep_entry(scene, "Stool", note_of("b"), {scene::OutputFile::text(f / "mine.json", "{}")}));
    CHECK(scene::read_notebook(scene).entries.size() == 1);
    CHECK(f.read("mine.json") == "mine");
}
