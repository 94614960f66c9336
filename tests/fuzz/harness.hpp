#pragma once

/// What the fuzzers share. With VOLTWRIGHT_REPLAY defined each is a plain program that reads the files it is given, once
/// each.

#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace voltwright::fuzz {

/// Ends the program, as a fuzzer wants it, where something does not hold.
inline void demand(bool holds, const char* what) {
    if (holds) return;
    std::fprintf(stderr, "%s\n", what);
    std::abort();
}

}  // namespace voltwright::fuzz

#ifdef VOLTWRIGHT_REPLAY
int main(int count, char** names) {
    for (int i = 1; i < count; ++i) {
        std::ifstream file(names[i], std::ios::binary);
        if (!file) {
            std::perror(names[i]);
            return 1;
        }
        const std::vector<std::uint8_t> bytes{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
        LLVMFuzzerTestOneInput(bytes.data(), bytes.size());
    }
    std::printf("%d replayed\n", count - 1);
}
#endif
