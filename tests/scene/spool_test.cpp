#include <catch2/catch.hpp>

#include <cerrno>
#include <filesystem>
#include <fstream>

#include "foretone/scene/output.hpp"
#include "foretone/scene/text_file.hpp"

using namespace foretone::scene;
namespace fs = std::filesystem;

TEST_CASE("what is spooled comes back in order, from memory and from disk, and leaves no file behind") {
    const fs::path folder = fs::temp_directory_path() / "foretone-spool-test";
    fs::remove_all(folder);
    fs::create_directories(folder);
    for (const std::size_t size : {std::size_t{0}, std::size_t{1000}, Spool::held + 12345}) {
        Spool spool(folder / "not" / "there");
        std::vector<std::uint8_t> all(size), back;
        for (std::size_t i = 0; i < size; ++i) all[i] = static_cast<std::uint8_t>(i * 31 >> 3);
        for (std::size_t at = 0; at < size; at += 700001)
            spool.add(std::span(all).subspan(at, std::min<std::size_t>(700001, size - at)));
        CHECK(spool.size() == size);
        CHECK(spool.each([&](auto bytes) {
            back.insert(back.end(), bytes.begin(), bytes.end());
            return 0;
        }) == 0);
        CHECK(back == all);
        if (size > 0) CHECK(spool.each([](auto) { return ENOSPC; }) == ENOSPC);
    }
    CHECK(fs::is_empty(folder));
    fs::remove_all(folder);
}

TEST_CASE("a file is written with the rest that was spooled") {
    const fs::path folder = fs::temp_directory_path() / "foretone-spool-test-file";
    auto rest = std::make_shared<Spool>(folder);
    const std::string tail(Spool::held + 10, 'x');
    rest->add({reinterpret_cast<const std::uint8_t*>(tail.data()), tail.size()});
    auto file = OutputFile::text(folder / "whole.txt", "head");
    file.rest = rest;
    write_all({file});
    std::ifstream in(folder / "whole.txt", std::ios::binary);
    const std::string all{std::istreambuf_iterator<char>(in), {}};
    CHECK(all == "head" + tail);
    fs::remove_all(folder);
}
