// Values over several lines: what stays in them keeps its line, remark and figures.
#include <gtest/gtest.h>

#include <random>

#include "document/patch.h"
#include "document/patch_meaning.h"
#include "document/test_support.h"
#include "document/toml_tree.h"

namespace spadework::document {
namespace {

const std::string kBed = "format = 1\n[[bed]]\nid = \"a\"\n";
const EntryRef kOfBed{"bed", "a"};

std::string with(const std::string& key, const std::string& was, const std::string& value) {
  const auto out = patch(kBed + key + " = " + was + "\n", {SetKey{kOfBed, {key}, value}});
  EXPECT_TRUE(out.has_value()) << (out ? "" : out.error().message + " | " + out.error().hint);
  const std::string head = kBed + key + " = ";
  return out ? out->substr(head.size(), out->size() - head.size() - 1) : "";
}

const std::string kOutline =
    "[\n  [0, 0],       # by the gate\n  [\"3 ft\", 0.0],\n  # the old stump\n  [3, 2.50],\n  "
    "[0, 2.50],  # at the tap\n]";

TEST(AListOverSeveralLines, KeepsWhatStays) {
  EXPECT_EQ(with("outline", kOutline, "[[0, 0], [\"3 ft\", 0], [3, 2.5], [0, 2.5]]"), kOutline);
  EXPECT_EQ(with("outline", kOutline, "[[0, 0], [\"3 ft\", 0], [3.2, 2.5], [0, 2.5]]"),
            "[\n  [0, 0],       # by the gate\n  [\"3 ft\", 0.0],\n  # the old stump\n  [3.2, "
            "2.50],\n  [0, 2.50],  # at the tap\n]");
  EXPECT_EQ(with("outline", kOutline, "[[0, 0], [3, 2.5], [0, 2.5]]"),
            "[\n  [0, 0],       # by the gate\n  # the old stump\n  [3, 2.50],\n  [0, 2.50],  # at "
            "the tap\n]");
  EXPECT_EQ(with("outline", kOutline, "[[0, 0], [\"3 ft\", 0], [2, 1], [3, 2.5], [0, 2.5]]"),
            "[\n  [0, 0],       # by the gate\n  [\"3 ft\", 0.0],\n  [2, 1],\n  # the old stump\n  "
            "[3, 2.50],\n  [0, 2.50],  # at the tap\n]");
  EXPECT_EQ(
      with("outline", kOutline, "[[0, 0], [\"3 ft\", 0], [3, 2.5], [0, 2.5], [0, 1], [0, 0.5]]"),
      "[\n  [0, 0],       # by the gate\n  [\"3 ft\", 0.0],\n  # the old stump\n  [3, "
      "2.50],\n  [0, 2.50],  # at the tap\n  [0, 1],\n  [0, 0.5],\n]");
  EXPECT_EQ(with("outline", kOutline, "[[-1, 0], [0, 0], [\"3 ft\", 0], [3, 2.5], [0, 2.5]]"),
            "[\n  [-1, 0],\n  [0, 0],       # by the gate\n  [\"3 ft\", 0.0],\n  # the old "
            "stump\n  [3, 2.50],\n  [0, 2.50],  # at the tap\n]");
}

TEST(RecordsInAListOverSeveralLines, KeepTheirRemarks) {
  const std::string mix =
      "[\n  { material = \"soil\", share = 0.6 },  # dug here\n  { material = \"compost\", share = "
      "0.40 },\n]";
  EXPECT_EQ(with("mix", mix,
                 "[{ material = \"soil\", share = 0.5 }, { material = \"compost\", share = 0.5 }]"),
            "[\n  { material = \"soil\", share = 0.5 },  # dug here\n  { material = \"compost\", "
            "share = 0.5 },\n]");
  EXPECT_EQ(with("mix", mix, "[{ material = \"soil\", share = 0.6 }]"),
            "[\n  { material = \"soil\", share = 0.6 },  # dug here\n]");
  EXPECT_EQ(with("mix", mix,
                 "[{ material = \"soil\", share = 0.6, note = \"sieved\" }, { material = "
                 "\"compost\", share = 0.4 }]"),
            "[\n  { material = \"soil\", share = 0.6, note = \"sieved\" },  # dug here\n  { "
            "material = \"compost\", share = 0.40 },\n]");
}

TEST(AListOverSeveralLines, BecomesAnotherKindOfValue) {
  EXPECT_EQ(with("outline", kOutline, "[]"), "[]");
  EXPECT_EQ(with("outline", kOutline, "\"as it was\""), "\"as it was\"");
  EXPECT_EQ(with("outline", "[\n  # nothing yet\n]", "[[0, 0]]"), "[[0, 0]]");
}

/// Any list of small figures, and how somebody may have written it.
class AnyList {
 public:
  explicit AnyList(std::uint64_t seed) : random_(seed) {}

  std::vector<int> items() {
    std::vector<int> out(static_cast<std::size_t>(below(7)));
    for (int& item : out) item = below(5);
    return out;
  }
  std::string item(int figure) {
    if (figure == 4) return "{ x = 4, y = [1, 2] }";
    return figure == 3 ? "[3, 0]" : std::to_string(figure);
  }
  std::string on_one_line(const std::vector<int>& items) {
    std::string out = "[";
    for (const int each : items) out += (out.size() > 1 ? ", " : "") + item(each);
    return out + "]";
  }
  std::string on_lines(const std::vector<int>& items) {
    std::string out = "[" + pause();
    for (std::size_t i = 0; i < items.size(); ++i) {
      out += item(items[i]);
      const bool last = i + 1 == items.size();
      if (one_in(4)) out += pause();
      if (!last || one_in(2)) out += ",";
      out += pause();
    }
    return out + "\n]";
  }

 private:
  int below(int n) { return std::uniform_int_distribution<int>(0, n - 1)(random_); }
  bool one_in(int n) { return below(n) == 0; }
  std::string pause() {
    const int what = below(5);
    if (what == 0) return "";
    if (what == 1) return " ";
    if (what == 2) return "\n  ";
    return what == 3 ? "  # so, [it, {is\n  " : "\n\n  # above\n  ";
  }
  std::mt19937_64 random_;
};

TEST(AnyListOverLines, BecomesAnyOther) {
  for (std::uint64_t seed = 0; seed < 4'000; ++seed) {
    AnyList any(seed);
    const std::vector<int> was = any.items();
    const std::vector<int> now = any.items();
    const std::string before = any.on_lines(was);
    const std::string wanted = any.on_one_line(now);
    SCOPED_TRACE(before + " to " + wanted);
    const auto out = patch(kBed + "rows = " + before + "\n", {SetKey{kOfBed, {"rows"}, wanted}});
    ASSERT_TRUE(out.has_value()) << out.error().message;
    const auto read = read_toml(*out);
    ASSERT_TRUE(read.has_value()) << *out;
    const TomlNode* rows = node_at(*read, {"bed", "0", "rows"});
    ASSERT_NE(rows, nullptr);
    EXPECT_TRUE(same_meaning(*rows, *read_value_text(wanted))) << *out;
    if (was == now) {
      EXPECT_EQ(*out, kBed + "rows = " + before + "\n");
    }
  }
}

}  // namespace
}  // namespace spadework::document
