/// The job notebook: entries go and come whole, faults have their place, the file stays a text one can write in.

#include <random>

#include "foretone/scene/notebook.hpp"
#include "foretone/scene/text_file.hpp"
#include "scene/faults.hpp"
#include "support/folder.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

const std::string book_head = "format = 1\n[[entry]]\ndate = \"2026-03-02\"\nfinish = \"x\"\n";

scene::Notebook book_from(const Folder& f, const std::string& text) {
    f.write("s.job.toml", text);
    return scene::read_notebook(f / "s.toml");
}
void refuses_book(const std::string& text, const std::string& id, const std::string& words, const std::string& says) {
    const Folder f("notebook-places");
    const auto at = place_in(text, words);
    INFO(text);
    holds_fault(faults_of([&] { book_from(f, text); }), id, at.line, at.column, says);
}

/// Printable text with what TOML must escape in it.
std::string random_text(std::mt19937& seeded) {
    static const std::string letters = "ab \"\\'#[]={}\xC3\xA4,.";
    std::string out;
    for (std::size_t i = 0, n = seeded() % 30; i < n; ++i) {
        const char c = letters[seeded() % letters.size()];
        if ((static_cast<unsigned char>(c) & 0x80) == 0) out += c;
    }
    return "x" + out;
}

}  // namespace

TEST_CASE("any entry comes back as it was kept, whatever stands in its texts") {
    std::mt19937 seeded(7);
    const Folder f("notebook-random");
    f.write("s.toml", "format = 1\n");
    std::vector<scene::NotebookEntry> kept;
    for (int i = 0; i < 25; ++i) {
        scene::NotebookEntry e;
        e.date = "2026-0" + std::to_string(1 + i % 9) + "-1" + std::to_string(i % 10);
        e.finish = random_text(seeded), e.recipe = random_text(seeded), e.wood = random_text(seeded);
        e.geometry = "45/0", e.sample = random_text(seeded), e.changed = random_text(seeded);
        e.note = random_text(seeded);
        if (i % 2) e.de00 = static_cast<double>(seeded() % 1000) / 100;
        for (unsigned k = 0; k < seeded() % 3; ++k)
            e.read.push_back({"D65", "2deg", {static_cast<double>(seeded() % 10000) / 100, -1.25, 30.5}});
        kept.push_back(e);
        scene::keep_entry(f / "s.toml", random_text(seeded), e);
    }
    const auto book = scene::read_notebook(f / "s.toml");
    REQUIRE(book.entries.size() == kept.size());
    for (std::size_t i = 0; i < kept.size(); ++i) {
        const auto &a = kept[i], &b = book.entries[i];
        CHECK(a.date == b.date);
        CHECK(a.finish == b.finish);
        CHECK(a.recipe == b.recipe);
        CHECK(a.wood == b.wood);
        CHECK(a.geometry == b.geometry);
        CHECK(a.sample == b.sample);
        CHECK(a.changed == b.changed);
        CHECK(a.note == b.note);
        CHECK(a.de00 == b.de00);
        REQUIRE(a.read.size() == b.read.size());
        for (std::size_t k = 0; k < a.read.size(); ++k) {
            CHECK(a.read[k].lab.l == b.read[k].lab.l);
            CHECK(b.read[k].lab.a == -1.25);
            CHECK(b.read[k].light == "D65");
            CHECK(b.read[k].observer == "2deg");
        }
        CHECK(b.predicted.empty());
    }
}

TEST_CASE("the notebook lies beside its scene, under the scene's name") {
    CHECK(scene::notebook_path("jobs/stool-maple.toml") == "jobs/stool-maple.job.toml");
    CHECK(scene::notebook_path("stool.v2.toml") == "stool.v2.job.toml");
    CHECK(scene::notebook_path("stool") == "stool.job.toml");
}

TEST_CASE("a day is one of the calendar") {
    const Folder f("notebook-days");
    f.write("s.toml", "format = 1\n");
    scene::NotebookEntry e;
    e.finish = "x";
    const auto kept = [&](const char* date) {
        e.date = date;
        return faults_of([&] { scene::keep_entry(f / "s.toml", "x", e); }).empty();
    };
    for (const char* good : {"2026-01-31", "2026-04-30", "2024-02-29", "2000-02-29", "1900-12-31", "2026-12-01"}) {
        INFO(good);
        CHECK(kept(good));
    }
    for (const char* bad : {"2026-04-31", "2026-02-29", "1900-02-29", "2100-02-29", "1899-12-31", "2026-00-10",
                            "2026-01-00", "2026-13-01", "2026-01-32", "2026/01/01", "2026-1-01", "2026-01-1 ",
                            "20260101", "2026-01-011", "+026-01-01"}) {
        INFO(bad);
        CHECK_FALSE(kept(bad));
    }
}

TEST_CASE("a notebook's faults are told at their place") {
    refuses_book("format = 2\n", "value-range", "2\n", "must be 1");
    refuses_book("[[entry]]\ndate = \"2026-03-02\"\nfinish = \"x\"\n", "key-missing", "[[entry]]",
                 "is this a job notebook?");
    refuses_book("format = 1\npage = 2\n", "key-unknown", "page", "the job notebook");
    refuses_book("format = 1\nentry = [ 5 ]\n", "value-type", "5 ]", "entries are tables");
    refuses_book("format = 1\nentry = 5\n", "value-type", "entry", "entries are tables");
    refuses_book("format = 1\n[[entry]]\nfinish = \"x\"\n", "key-missing", "[[entry]]", "needs its date");
    refuses_book("format = 1\n[[entry]]\ndate = \"2026-03-02\"\n", "key-missing", "[[entry]]", "needs its finish");
    refuses_book("format = 1\n[[entry]]\ndate = 2026-03-02\nfinish = \"x\"\n", "value-type", "2026", "date is a date");
    refuses_book("format = 1\n[[entry]]\ndate = \"3 March\"\nfinish = \"x\"\n", "date-syntax",
                 "date =", "'3 March' is no date; write it as 2026-03-02");
    refuses_book(book_head + "read = 5\n", "value-type", "read", "read is a list");
    refuses_book(book_head + "predicted = [ 5 ]\n", "value-type", "5 ]", "each of predicted is {");
    const std::string color = "light = \"D65\", observer = \"2deg\"";
    for (const std::string bad :
         {"observer = \"2deg\", lab = [1, 2, 3]", "light = \"D65\", lab = [1, 2, 3]",
          "light = \"D65\", observer = \"2deg\"", "light = \"D65\", observer = \"2deg\", lab = [1, 2]",
          "light = \"D65\", observer = \"2deg\", lab = [1, 2, 201]"})
        refuses_book(book_head + "read = [ { " + bad + " } ]\n", "notebook-color", "{ " + bad, "lab = [L, a, b]");
    refuses_book(book_head + "read = [ { " + color + ", lab = [1, 2, 3], de = 1 } ]\n", "key-unknown", "de = 1",
                 "a color of the notebook");
    refuses_book(book_head + "dE00 = -1\n", "value-range", "-1", "0 to 1000");
}

TEST_CASE("a notebook grows no larger than what can be read again") {
    const Folder f("notebook-large");
    f.write("s.toml", "format = 1\n");
    f.write("s.job.toml", book_head + "# " + std::string(scene::largest_text_file - book_head.size() - 60, 'x'));
    scene::NotebookEntry e;
    e.date = "2026-03-02", e.finish = "x", e.note = std::string(200, 'n');
    const auto found = faults_of([&] { scene::keep_entry(f / "s.toml", "x", e); });
    REQUIRE(found.size() == 1);
    CHECK(found[0].id == "file-too-large");
    CHECK(found[0].text.find("1000000 bytes") != std::string::npos);
}

TEST_CASE("a new notebook names its scene and job, and what is not known is not written") {
    const Folder f("notebook-new");
    f.write("s.toml", "format = 1\n");
    scene::NotebookEntry e;
    e.date = "2026-03-02", e.finish = "x", e.recipe = "tung";
    const auto kept = scene::keep_entry(f / "s.toml", "Stool \"A\"", e);
    CHECK(f.read("s.job.toml") ==
          "# Job notebook of \"s.toml\": entries are only added, never rewritten.\nformat = 1\n"
          "title = \"Stool \\\"A\\\"\"\n\n[[entry]]\nid = 1\ndate = \"2026-03-02\"\nfinish = \"x\"\n"
          "recipe = \"tung\"\n");
    CHECK(kept.file == f / "s.job.toml");
    CHECK(kept.id == 1);
}
