// Running the command as its users do: what it prints, its exit status, the files it leaves.
#pragma once

#include <gtest/gtest.h>
#include <sys/wait.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>

namespace spadework::testing {

namespace fs = std::filesystem;
using nlohmann::json;

inline const std::string kKerAvel = SPADEWORK_SOURCE_DIR "/examples/ker-avel.toml";

struct Outcome {
  int status = -1;
  std::string out, err;
};

inline std::string slurp(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

class Command : public ::testing::Test {
 protected:
  void SetUp() override {
    folder_ = fs::temp_directory_path() /
              ("spadework-" + std::to_string(::getpid()) + "-" +
               ::testing::UnitTest::GetInstance()->current_test_info()->name());
    fs::create_directories(folder_);
  }
  void TearDown() override { fs::remove_all(folder_); }

  Outcome run(const std::string& words) {
    Outcome outcome;
    const fs::path err = folder_ / "stderr";
    FILE* pipe =
        ::popen((std::string(SPADEWORK_BINARY) + " " + words + " 2>" + err.string()).c_str(), "r");
    std::array<char, 4096> buffer{};
    while (const std::size_t n = std::fread(buffer.data(), 1, buffer.size(), pipe))
      outcome.out.append(buffer.data(), n);
    const int status = ::pclose(pipe);
    outcome.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    outcome.err = slurp(err);
    return outcome;
  }
  std::string write(const std::string& name, const std::string& text) {
    std::ofstream(folder_ / name) << text;
    return (folder_ / name).string();
  }
  fs::path folder_;
};

}  // namespace spadework::testing
