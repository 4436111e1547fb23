// One more entry: under a lock the notebook is read again, added to and put back whole, on the disk before it is said
// to be kept.

#include <algorithm>

#include "folder_lock.hpp"
#include "foretone/scene/problem.hpp"
#include "foretone/scene/text_file.hpp"
#include "notebook_text.hpp"
#include "placing.hpp"

namespace foretone::scene {
namespace {
namespace fs = std::filesystem;

constexpr const char* elsewhere =
    "the notebook lies beside its scene: copy the scene into a folder that can be written, or leave out --keep";

int next_id(const std::vector<NotebookEntry>& entries) {
    int last = static_cast<int>(entries.size());
    for (const auto& e : entries) last = std::max(last, e.id);
    return last + 1;
}

// "stool.job.torn.toml", "stool.job.torn-2.toml" …: the first that is not there.
fs::path torn_path(const fs::path& notebook) {
    const auto free = [](const fs::path& p) { return !destination_of(p).there; };
    auto path = notebook;
    path.replace_extension(".torn.toml");
    for (int n = 2; !free(path); ++n)
        path = fs::path(notebook).replace_extension(".torn-" + std::to_string(n) + ".toml");
    return path;
}

OutputFile lasting(const fs::path& path, const std::string& text) {
    auto out = OutputFile::text(path, text);
    out.otherwise = elsewhere;
    out.lasting = out.grows = true;
    return out;
}

// What is torn goes into a file of its own.
void put_aside(const BookText& book, const fs::path& path, std::vector<OutputFile>& files,
               std::vector<Problem>& notes) {
    if (book.torn.empty()) return;
    const auto aside = torn_path(path);
    files.push_back(lasting(aside, book.torn));
    notes.push_back({"notebook-torn",
                     {path.string()},
                     "the last entry was cut off and could not be read; it is kept aside in " + aside.string()});
}

BookText book_at(const fs::path& path, const fs::path& scene, const std::string& title) {
    BookText book{book_head(scene, title), ""};
    if (destination_of(path).there) book = read_book(read_text(path), path.string());
    if (book.text.back() != '\n') book.text += '\n';
    return book;
}

}  // namespace

KeptEntry keep_entry(const fs::path& scene, const std::string& title, NotebookEntry entry, std::vector<OutputFile> with,
                     const WriteRules& rules) {
    KeptEntry kept{notebook_path(scene), 0, {}};
    require_date(entry.date, kept.file.string());
    const auto target = destination_of(kept.file);
    if (target.there && !S_ISREG(target.there->st_mode))
        throw InputError("out-unwritable", {kept.file.string()},
                         "something of this name that is no file is in the way; " + std::string(elsewhere));
    const FolderLock lock(target.path);
    auto book = book_at(kept.file, scene, title);
    kept.id = entry.id = next_id(book.entries);
    put_aside(book, kept.file, with, kept.notes);
    book.text += entry_text(entry);
    if (book.text.size() > largest_text_file)
        throw InputError("file-too-large", {kept.file.string()},
                         "the notebook would grow over " + std::to_string(largest_text_file) +
                             " bytes; start another beside a copy of the scene");
    // What is written can be read again. Below tables one more harms none of them: it is read alone.
    const auto added = book.tables ? book_head(scene, title) + entry_text(entry) : book.text;
    read_book(added, kept.file.string());
    with.push_back(lasting(kept.file, book.text));
    write_all(with, rules);
    return kept;
}

}  // namespace foretone::scene
