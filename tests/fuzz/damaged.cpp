// Every reader under the sanitizers, by damaged copies of what is kept in its corpus: damaged READER COPIES CORPUS
// WORDS. The same copies on every machine; one that breaks a reader lies in damaged-READER.last. The fuzzer proper
// (.ci/fuzz) goes by what it reaches and finds more; this one needs no other compiler and no other build.

#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <map>
#include <random>
#include <string>
#include <vector>

#define FORETONE_READERS(each)                                                                                       \
    each(cgats) each(csv) each(lab_list) each(cxf) each(scene) each(material) each(stack) each(spectrum) each(names) \
        each(bundle) each(photo)
#define FORETONE_DECLARE(name) extern "C" int fuzz_##name(const std::uint8_t*, std::size_t);
FORETONE_READERS(FORETONE_DECLARE)
#undef FORETONE_DECLARE

namespace {

using Reader = int (*)(const std::uint8_t*, std::size_t);
constexpr std::size_t longest = 8192;

std::string bytes_of(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

std::vector<std::string> inputs_in(const std::filesystem::path& folder) {
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder))
        if (entry.is_regular_file()) files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    std::vector<std::string> out;
    for (const auto& file : files) out.push_back(bytes_of(file));
    return out;
}

// What stands between the quotes of a dictionary's lines.
std::vector<std::string> words_in(const std::filesystem::path& file) {
    std::vector<std::string> out;
    std::ifstream in(file);
    for (std::string line; std::getline(in, line);) {
        const auto from = line.find('"'), to = line.rfind('"');
        if (line.empty() || line[0] == '#' || from == std::string::npos || to <= from + 1) continue;
        out.push_back(line.substr(from + 1, to - from - 1));
    }
    return out;
}

class Damage {
public:
    Damage(std::vector<std::string> inputs, std::vector<std::string> words)
        : inputs_(std::move(inputs)), words_(std::move(words)) {}

    std::string next() {
        std::string text = inputs_[below(inputs_.size())];
        for (std::size_t n = 1 + below(5); n > 0; --n) change(text);
        if (text.size() > longest) text.resize(longest);
        return text;
    }

private:
    std::size_t below(std::size_t n) { return n == 0 ? 0 : static_cast<std::size_t>(random_() % n); }

    void change(std::string& text) {
        const std::size_t at = below(text.size() + 1), length = std::min(text.size() - at, 1 + below(64));
        switch (below(8)) {
            case 0:
                if (at < text.size()) text[at] = static_cast<char>(text[at] ^ (1 << below(8)));
                break;
            case 1:
                if (at < text.size()) text[at] = static_cast<char>(below(256));
                break;
            case 2:
                text.erase(at, length);
                break;
            case 3:
                text.insert(at, text.substr(at, length));
                break;
            case 4:
                text.resize(at);
                break;
            case 5:
                if (!words_.empty()) text.insert(at, words_[below(words_.size())]);
                break;
            case 6: {
                const auto& other = inputs_[below(inputs_.size())];
                text.replace(at, length, other.substr(below(other.size() + 1), 1 + below(256)));
                break;
            }
            default:
                text.insert(at, std::string(1 + below(32), text.empty() ? '\0' : text[below(text.size())]));
        }
    }

    std::mt19937_64 random_{20};
    std::vector<std::string> inputs_, words_;
};

struct Reading {
    std::size_t size;
    char bytes[1 << 20];
};

void read_with(Reader reader, const std::string& input, Reading& reading) {
    reading.size = input.size();
    std::copy_n(input.data(), std::min(input.size(), sizeof reading.bytes), reading.bytes);
    reader(reinterpret_cast<const std::uint8_t*>(input.data()), input.size());
}

}  // namespace

int main(int count, char** arguments) {
    const std::map<std::string, Reader> readers = {
#define FORETONE_ROW(name) {#name, fuzz_##name},
        FORETONE_READERS(FORETONE_ROW)
#undef FORETONE_ROW
    };
    const auto reader = count >= 4 ? readers.find(arguments[1]) : readers.end();
    if (reader == readers.end()) {
        std::cerr << "damaged READER COPIES CORPUS [WORDS]\n";
        return 2;
    }
    const auto inputs = inputs_in(arguments[3]);
    if (inputs.empty()) {
        std::cerr << arguments[3] << " holds no input\n";
        return 2;
    }
    // A process of its own reads, so that what it was reading when it fell is still here.
    auto* reading = static_cast<Reading*>(
        mmap(nullptr, sizeof(Reading), PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0));
    if (reading == MAP_FAILED) return std::perror("mmap"), 2;
    const pid_t child = fork();
    if (child < 0) return std::perror("fork"), 2;
    const auto copies = std::strtoul(arguments[2], nullptr, 10);
    if (child == 0) {
        for (const auto& input : inputs) read_with(reader->second, input, *reading);
        Damage damage(inputs, count > 4 ? words_in(arguments[4]) : std::vector<std::string>());
        for (unsigned long i = 0; i < copies; ++i) read_with(reader->second, damage.next(), *reading);
        std::cout << reader->first << ": " << inputs.size() << " kept inputs and " << copies
                  << " damaged copies read\n";
        return 0;
    }
    int status = 0;
    waitpid(child, &status, 0);
    if (WIFEXITED(status) && WEXITSTATUS(status) == 0) return 0;
    const std::string last = std::string("damaged-") + arguments[1] + ".last";
    std::ofstream(last, std::ios::binary)
        .write(reading->bytes, static_cast<std::streamsize>(std::min(reading->size, sizeof reading->bytes)));
    std::cerr << "what was read last lies in " << last << '\n';
    return 1;
}
