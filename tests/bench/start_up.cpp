/// How long a whole `voltwright plan` takes, from fork to exit, against a process that does nothing.
///
///     bench_start_up [--short]
///
/// The program is `voltwright` in the build folder above this one, the empty process `bench_empty` beside this one.
/// Where the program is linked statically, the empty process has to be as well, or the ratio says too little: the
/// loader alone costs more than an empty static process. The bench says which linkage it met and does not hide a
/// difference.
/// Times are the least of many, because everything that disturbs a measurement makes it longer.

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <elf.h>
#include <filesystem>
#include <fstream>
#include <optional>
#include <string>
#include <vector>

namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;
using Milliseconds = std::chrono::duration<double, std::milli>;

[[noreturn]] void cannot_run(const std::string& why) {
    std::fprintf(stderr, "start_up cannot run: %s\n", why.c_str());
    std::exit(1);
}

/// The profile with the most bytes.
fs::path largest_example() {
    fs::path largest;
    std::uintmax_t most = 0;
    for (const auto& entry : fs::directory_iterator(fs::path(VOLTWRIGHT_TOP_FOLDER) / "examples/profiles")) {
        if (entry.path().extension() != ".toml" || entry.file_size() <= most) continue;
        most = entry.file_size();
        largest = entry.path();
    }
    if (largest.empty()) cannot_run("there is no profile in examples/profiles");
    return largest;
}

/// Whether an executable asks for a loader; empty when it is no ELF file of 64 bits.
std::optional<bool> needs_loader(const fs::path& executable) {
    std::ifstream file(executable, std::ios::binary);
    Elf64_Ehdr head{};
    file.read(static_cast<char*>(static_cast<void*>(&head)), sizeof head);
    if (!file || std::memcmp(head.e_ident, ELFMAG, SELFMAG) != 0 || head.e_ident[EI_CLASS] != ELFCLASS64) return {};
    file.seekg(static_cast<std::streamoff>(head.e_phoff));
    for (int i = 0; i < head.e_phnum; ++i) {
        Elf64_Phdr part{};
        file.read(static_cast<char*>(static_cast<void*>(&part)), sizeof part);
        if (!file) return {};
        if (part.p_type == PT_INTERP) return true;
    }
    return false;
}

std::string linkage(const fs::path& executable) {
    const auto loader = needs_loader(executable);
    return !loader ? "of unknown linkage" : *loader ? "dynamic" : "static";
}

/// One process from fork to the end of wait. Whatever it prints goes nowhere.
Milliseconds run_once(const std::vector<std::string>& words) {
    std::vector<char*> arguments;
    for (const std::string& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
    arguments.push_back(nullptr);

    const auto start = Clock::now();
    const pid_t child = fork();
    if (child < 0) cannot_run("no process can be started");
    if (child == 0) {
        const int nowhere = open("/dev/null", O_WRONLY | O_CLOEXEC);
        if (nowhere >= 0) {
            dup2(nowhere, STDOUT_FILENO);
            dup2(nowhere, STDERR_FILENO);
        }
        execv(arguments.front(), arguments.data());
        _exit(127);
    }
    int status = 0;
    if (waitpid(child, &status, 0) != child) cannot_run("a process was lost");
    const Milliseconds taken = Clock::now() - start;

    // 127 and above, or a signal: it did not run. A plan with a stop also ends with a code of its own.
    if (!WIFEXITED(status) || WEXITSTATUS(status) >= 126) cannot_run(words.front() + " did not run to its end");
    return taken;
}

}  // namespace

int main(int argc, char** argv) {
    const bool brief = argc > 1 && std::strcmp(argv[1], "--short") == 0;
    const int repeats = brief ? 30 : 300;

    std::error_code error;
    const fs::path self = fs::read_symlink("/proc/self/exe", error);
    if (error) cannot_run("/proc is not there");
    const fs::path empty = self.parent_path() / "bench_empty";
    const fs::path program = self.parent_path().parent_path() / "voltwright";
    for (const fs::path& executable : {empty, program})
        if (access(executable.c_str(), X_OK) != 0) cannot_run(executable.string() + " is not built");

    const fs::path profile = largest_example();
    Milliseconds least_empty = Milliseconds::max();
    Milliseconds least_plan = Milliseconds::max();
    for (int i = 0; i < repeats; ++i) {
        // In turn, so that a change of the machine's pace meets both.
        least_empty = std::min(least_empty, run_once({empty.string()}));
        least_plan = std::min(least_plan, run_once({program.string(), "plan", profile.string()}));
    }

    std::printf("empty process (%s)             %8.3f ms\n", linkage(empty).c_str(), least_empty.count());
    std::printf("voltwright plan %s (%s)  %8.3f ms\n", profile.filename().c_str(), linkage(program).c_str(),
                least_plan.count());
    std::printf("ratio %.2f, least of %d\n", least_plan / least_empty, repeats);
    if (linkage(empty) != linkage(program))
        std::printf("the two are not linked alike: the ratio compares unlike things\n");
}
