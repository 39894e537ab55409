// Broken documents in tests/damage/documents, each with what must be told of it beside it:
// `line:column code | piece of the message | piece of the hint`, one problem a line, in order.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <sstream>
#include <vector>

#include "document/test_support.h"

namespace spadework::document {
namespace {

const std::filesystem::path kFolder =
    std::filesystem::path(SPADEWORK_SOURCE_DIR) / "tests/damage/documents";

struct Expected {
  std::string place, code, message, hint;
};

std::string trimmed(const std::string& text) {
  const std::size_t begin = text.find_first_not_of(' ');
  if (begin == std::string::npos) return {};
  return text.substr(begin, text.find_last_not_of(' ') + 1 - begin);
}

std::vector<Expected> expected_of(const std::filesystem::path& document) {
  std::filesystem::path beside = document;
  beside.replace_extension(".expect");
  std::istringstream lines(file_text(beside.string()));
  std::vector<Expected> out;
  for (std::string line; std::getline(lines, line);) {
    const std::size_t first = line.find(" | "), second = line.find(" | ", first + 3);
    const std::size_t space = line.find(' ');
    out.push_back({line.substr(0, space), line.substr(space + 1, first - space - 1),
                   trimmed(line.substr(first + 3, second - first - 3)),
                   trimmed(line.substr(second + 3))});
  }
  return out;
}

std::vector<std::filesystem::path> documents() {
  std::vector<std::filesystem::path> out;
  for (const auto& entry : std::filesystem::directory_iterator(kFolder)) {
    if (entry.path().extension() == ".toml") out.push_back(entry.path());
  }
  std::sort(out.begin(), out.end());
  return out;
}

class BrokenDocument : public testing::TestWithParam<std::filesystem::path> {};

TEST_P(BrokenDocument, IsToldWithLineColumnCodeAndHint) {
  const ReadDocument read =
      read_document(file_text(GetParam().string()), "garden.toml", test_words());
  const std::vector<Expected> expected = expected_of(GetParam());
  ASSERT_FALSE(expected.empty());
  ASSERT_EQ(read.problems.size(), expected.size()) << problems_text(read);
  for (std::size_t i = 0; i < expected.size(); ++i) {
    const Error& error = read.problems[i];
    EXPECT_EQ(error.where, "garden.toml:" + expected[i].place) << error.message;
    EXPECT_EQ(code_name(error.code), expected[i].code) << error.message;
    EXPECT_NE(error.message.find(expected[i].message), std::string::npos) << error.message;
    EXPECT_NE(error.hint.find(expected[i].hint), std::string::npos) << error.hint;
    EXPECT_FALSE(error.hint.empty()) << error.message;
    EXPECT_EQ(exit_status(error.code), 1);
  }
}

INSTANTIATE_TEST_SUITE_P(Damage, BrokenDocument, testing::ValuesIn(documents()),
                         [](const auto& each) {
                           std::string name = each.param.stem().string();
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

TEST(BrokenDocuments, AreMoreThanSeventy) { EXPECT_GE(documents().size(), 70u); }

}  // namespace
}  // namespace spadework::document
