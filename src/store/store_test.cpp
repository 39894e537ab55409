#include "store/store.h"

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <memory>
#include <sstream>

#include "store/database.h"

namespace spadework::store {
namespace {

constexpr const char* kProgram = "Spadework 0.1.0";

/// A folder of its own for each test.
class Store : public ::testing::Test {
 protected:
  void SetUp() override {
    char name[] = "/tmp/spadework-store-XXXXXX";
    ASSERT_NE(::mkdtemp(name), nullptr);
    folder = name;
    path = folder + "/g.garden";
  }
  void TearDown() override { std::system(("rm -rf " + folder).c_str()); }

  GardenFile fresh(const std::string& text = "one") {
    auto file = GardenFile::create(path, text, "Test", kProgram);
    EXPECT_TRUE(file.has_value()) << file.error().message;
    return std::move(*file);
  }
  GardenFile again() {
    auto file = GardenFile::open(path, kProgram);
    EXPECT_TRUE(file.has_value()) << file.error().message;
    return std::move(*file);
  }
  static Head write(GardenFile& file, const std::string& text, const std::string& says) {
    static int n = 0;
    const auto now = file.head();
    auto head = file.write({"w" + std::to_string(++n), now->change}, text, "Test", says);
    EXPECT_TRUE(head.has_value()) << head.error().message;
    return *head;
  }
  static std::string bytes_of(const std::string& file) {
    std::ifstream in(file, std::ios::binary);
    std::stringstream out;
    out << in.rdbuf();
    return out.str();
  }

  [[nodiscard]] std::map<std::string, std::string> files() const {
    std::map<std::string, std::string> out;
    for (const auto& entry : std::filesystem::directory_iterator(folder))
      out[entry.path().filename().string()] = bytes_of(entry.path().string());
    return out;
  }

  std::string folder, path;
};

TEST_F(Store, GivesBackWhatWasWrittenAfterOpeningAgain) {
  std::string odd = "title = \"Où\"\r\n";
  odd += '\0';
  odd += std::string(200'000, 'x');
  {
    GardenFile file = fresh();
    write(file, odd, "Odd");
  }
  GardenFile file = again();
  EXPECT_EQ(*file.text(), odd);
  EXPECT_EQ(file.head()->undo, "Odd");
  EXPECT_EQ(file.head()->title, "Test");
  EXPECT_TRUE(*file.is_whole());
}

TEST_F(Store, UndoesEveryStepToTheFirstBytesAlsoAfterOpeningAgain) {
  {
    GardenFile file = fresh("0");
    for (int i = 1; i <= 40; ++i) write(file, std::to_string(i), "step " + std::to_string(i));
  }
  GardenFile file = again();
  for (int i = 39; i >= 0; --i) {
    const auto head = file.undo({"u" + std::to_string(i), file.head()->change});
    ASSERT_TRUE(head.has_value());
    EXPECT_EQ(*file.text(), std::to_string(i));
    EXPECT_EQ(head->redo, "step " + std::to_string(i + 1));
  }
  const auto no_further = file.undo({"u-1", file.head()->change});
  ASSERT_FALSE(no_further.has_value());
  EXPECT_EQ(no_further.error().code, ErrorCode::kNoAnswer);
  for (int i = 1; i <= 40; ++i) {
    ASSERT_TRUE(file.redo({"r" + std::to_string(i), file.head()->change}).has_value());
    EXPECT_EQ(*file.text(), std::to_string(i));
  }
  EXPECT_EQ(file.head()->redo, "");
  EXPECT_FALSE(file.redo({"r41", file.head()->change}).has_value());
}

TEST_F(Store, AfterAnUndoANewChangeLeadsAnotherWayAndTheOldStatesStay) {
  GardenFile file = fresh("a");
  write(file, "b", "to b");
  (void)file.undo({"u", file.head()->change});
  write(file, "c", "to c");
  EXPECT_EQ(file.head()->redo, "");
  (void)file.undo({"u2", file.head()->change});
  EXPECT_EQ(*file.text(), "a");
  EXPECT_EQ(file.head()->redo, "to c");
  EXPECT_EQ(*file.text_of(2), "b");
}

TEST_F(Store, TakesACommandOnceHoweverOftenItIsSent) {
  GardenFile file = fresh("a");
  const auto change = file.head()->change;
  const auto first = file.write({"same", change}, "b", "Test", "to b");
  const auto second = file.write({"same", change}, "b", "Test", "to b");
  ASSERT_TRUE(first && second);
  EXPECT_EQ(second->change, first->change);
  EXPECT_EQ(second->revision, first->revision);
  EXPECT_EQ(file.revisions(10)->size(), 2u);
  const auto undo = file.undo({"back", first->change});
  EXPECT_EQ(file.undo({"back", first->change})->change, undo->change);
  EXPECT_EQ(*file.text(), "a");
}

TEST_F(Store, RefusesAChangeMadeOnAnOldState) {
  GardenFile one = fresh("a");
  GardenFile other = again();
  const auto seen = other.head()->change;
  write(one, "b", "to b");
  EXPECT_EQ(*other.text(), "b");  // at once
  const auto late = other.write({"late", seen}, "c", "Test", "to c");
  ASSERT_FALSE(late.has_value());
  EXPECT_EQ(late.error().code, ErrorCode::kStale);
  EXPECT_EQ(*other.text(), "b");
}

TEST_F(Store, KeepsNoRevisionForTheSameText) {
  GardenFile file = fresh("a");
  write(file, "a", "nothing");
  EXPECT_EQ(file.revisions(10)->size(), 1u);
  EXPECT_EQ(file.head()->undo, "");
}

TEST_F(Store, BringsBackANamedState) {
  GardenFile file = fresh("a");
  ASSERT_TRUE(file.name({"n", file.head()->change}, "before the arch").has_value());
  for (int i = 0; i < 5; ++i) write(file, "b" + std::to_string(i), "more");
  const auto listed = *file.revisions(2);
  ASSERT_EQ(listed.size(), 3u);
  EXPECT_EQ(listed.back().name, "before the arch");
  const auto back = file.bring_back({"back", file.head()->change}, listed.back().id);
  ASSERT_TRUE(back.has_value());
  EXPECT_EQ(*file.text(), "a");
  EXPECT_EQ(back->undo, "Brought back: before the arch");
  (void)file.undo({"u", back->change});
  EXPECT_EQ(*file.text(), "b4");
  EXPECT_EQ(file.bring_back({"x", file.head()->change}, 999).error().code, ErrorCode::kUnknownId);
}

TEST_F(Store, KeepsFilesBesideTheDocument) {
  GardenFile file = fresh();
  const std::string weather(100'000, 'w');
  ASSERT_TRUE(file.attach("brest.csv", weather).has_value());
  EXPECT_EQ(*again().attachment("brest.csv"), weather);
  EXPECT_EQ(file.attachment("other.csv").error().code, ErrorCode::kUnknownId);
  EXPECT_EQ(file.head()->change, 1);  // no change of the document
}

// Undo must find the file that the document had then.
TEST_F(Store, NeverGivesAFilesNameToOtherBytes) {
  GardenFile file = fresh();
  EXPECT_EQ(*file.attach("days.csv", "one"), "days.csv");
  EXPECT_EQ(*file.attach("days.csv", "two"), "days-2.csv");
  EXPECT_EQ(*file.attach("days.csv", "three"), "days-3.csv");
  EXPECT_EQ(*file.attach("days.csv", "two"), "days-2.csv");  // sent twice
  EXPECT_EQ(*file.attach("days", ""), "days");
  EXPECT_EQ(*file.attach("days", "x"), "days-2");
  EXPECT_EQ(*file.attachment("days.csv"), "one");
  EXPECT_EQ(*file.attachment("days-3.csv"), "three");
}

TEST_F(Store, TakesNoFileOverItsLimit) {
  GardenFile file = fresh();
  const auto refused = file.attach("days.csv", std::string(kMostAttached_bytes + 1, 'w'));
  ASSERT_FALSE(refused.has_value());
  EXPECT_EQ(refused.error().code, ErrorCode::kTooLarge);
  EXPECT_EQ(file.attachment("days.csv").error().code, ErrorCode::kUnknownId);
}

// The length of what was compressed is in the file too, and can be damaged.
TEST_F(Store, MakesNoRoomForALengthThatCannotBe) {
  { (void)*fresh().attach("days.csv", "one"); }
  for (const char* bytes : {"-1", "9223372036854775807", "2", "4"}) {
    {
      auto database = Database::open(path, OpenAs::kWritable);
      const std::string set = std::string("UPDATE attachment SET bytes = ") + bytes;
      ASSERT_TRUE((*database)->run(set.c_str()).has_value());
    }
    EXPECT_EQ(again().attachment("days.csv").error().code, ErrorCode::kCannotRead) << bytes;
  }
}

TEST_F(Store, RefusesAFileOfANewerProgramByNameAndLeavesIt) {
  { (void)fresh(); }
  {
    auto database = Database::open(path, OpenAs::kWritable);
    ASSERT_TRUE((*database)->run("UPDATE written_by SET program = 'Spadework 7.2'").has_value());
    ASSERT_TRUE((*database)->run("PRAGMA user_version = 99").has_value());
  }
  const std::string before = bytes_of(path);
  const auto file = GardenFile::open(path, kProgram);
  ASSERT_FALSE(file.has_value());
  EXPECT_EQ(file.error().code, ErrorCode::kNewerFile);
  EXPECT_NE(file.error().message.find("Spadework 7.2"), std::string::npos);
  EXPECT_EQ(bytes_of(path), before);
}

TEST_F(Store, OpensEveryLayoutThatWasEverShipped) {
  for (int layout = 1; layout <= kLayout; ++layout) {
    const std::string shipped = std::string(SPADEWORK_SOURCE_DIR) + "/src/store/testdata/layout-" +
                                std::to_string(layout) + ".garden";
    std::ofstream(path, std::ios::binary | std::ios::trunc) << bytes_of(shipped);
    GardenFile file = again();
    EXPECT_EQ(*file.text(), "title = \"Shipped\"\n# second\n") << layout;
    EXPECT_EQ(file.head()->undo, "A second line");
    EXPECT_EQ(file.revisions(10)->back().name, "the first");
    EXPECT_EQ(*file.attachment("rain.csv"), "date,rain_mm\n2026-01-01,3\n");
    EXPECT_TRUE(*file.is_whole());
    write(file, "third", "to third");
    EXPECT_EQ(*file.text(), "third");
  }
}

TEST_F(Store, RefusesWhatIsNoGarden) {
  std::ofstream(path) << "format = 1\n";
  EXPECT_EQ(GardenFile::open(path, kProgram).error().code, ErrorCode::kCannotRead);
  std::ofstream(path, std::ios::trunc) << "";
  EXPECT_EQ(GardenFile::open(path, kProgram).error().code, ErrorCode::kCannotRead);
  ::unlink(path.c_str());
  { (void)Database::open(path, OpenAs::kNew)->get()->run("CREATE TABLE other (a)"); }
  EXPECT_EQ(GardenFile::open(path, kProgram).error().code, ErrorCode::kCannotRead);
  EXPECT_EQ(GardenFile::open(folder + "/none.garden", kProgram).error().code,
            ErrorCode::kCannotRead);
}

// A file cut off or with bytes turned over: an error or the right text, never another.
TEST_F(Store, FindsDamage) {
  std::string text;
  for (int i = 0; i < 4000; ++i) text += "line " + std::to_string(i * 7919 % 10007) + "\n";
  { (void)fresh(text); }
  const std::string whole = bytes_of(path);
  for (std::size_t at = 0; at < whole.size(); at += 211) {
    std::string damaged = whole;
    damaged[at] = static_cast<char>(damaged[at] ^ 0x55);
    std::ofstream(path, std::ios::binary | std::ios::trunc) << damaged;
    auto file = GardenFile::open(path, kProgram);
    if (!file) continue;
    const auto read = file->text();
    if (read) {
      EXPECT_EQ(*read, text) << at;
    }
  }
}

TEST_F(Store, OpensAFileThatMayOnlyBeReadToBeRead) {
  { (void)fresh("a"); }
  ASSERT_EQ(::chmod(path.c_str(), 0444), 0);
  ASSERT_EQ(::chmod(folder.c_str(), 0555), 0);
  const bool was_root = ::geteuid() == 0;
  if (was_root) {
    ASSERT_EQ(::seteuid(65534), 0);  // nobody: root may write all
  }
  {
    auto file = GardenFile::open(path, kProgram);
    ASSERT_TRUE(file.has_value()) << file.error().message;
    EXPECT_TRUE(file->read_only());
    EXPECT_EQ(*file->text(), "a");
    const auto refused = file->write({"w", file->head()->change}, "b", "Test", "to b");
    ASSERT_FALSE(refused.has_value());
    EXPECT_EQ(refused.error().code, ErrorCode::kReadOnly);
  }
  if (was_root) {
    ASSERT_EQ(::seteuid(0), 0);
  }
  ASSERT_EQ(::chmod(folder.c_str(), 0755), 0);
}

// A file that is open could be written on against its owner's word.
TEST_F(Store, WritesNothingWhileTheFileMayOnlyBeReadAndGoesOnAfterwards) {
  const bool was_root = ::geteuid() == 0;
  if (was_root) {
    ASSERT_EQ(::chown(folder.c_str(), 65534, 65534), 0);
    ASSERT_EQ(::seteuid(65534), 0);
  }
  {
    GardenFile file = fresh("a");
    ASSERT_EQ(::chmod(path.c_str(), 0444), 0);
    EXPECT_TRUE(file.read_only());
    const auto refused = file.write({"w", file.head()->change}, "b", "Test", "to b");
    ASSERT_FALSE(refused.has_value());
    EXPECT_EQ(refused.error().code, ErrorCode::kReadOnly);
    GardenFile other = again();  // opened to be read
    ASSERT_EQ(::chmod(path.c_str(), 0644), 0);
    EXPECT_FALSE(other.read_only());
    write(file, "b", "to b");
  }
  GardenFile file = again();
  EXPECT_EQ(*file.text(), "b");
  if (was_root) {
    ASSERT_EQ(::seteuid(0), 0);
  }
}

/// What is in the folder, each with its bytes.
using Files = std::map<std::string, std::string>;

TEST_F(Store, LooksAtWhatIsWrittenWhileAnotherProgramHasTheFile) {
  GardenFile server = fresh("a");
  (void)*server.attach("days.csv", "one");
  write(server, "b", "to b");
  ASSERT_EQ(files().count("g.garden-wal"), 1u);
  const Files before = files();
  {
    auto seen = GardenFile::look(path, kProgram);
    ASSERT_TRUE(seen.has_value()) << seen.error().message;
    EXPECT_EQ(*seen->text(), "b");
    EXPECT_EQ(*seen->attachment("days.csv"), "one");
    EXPECT_TRUE(seen->read_only());
    EXPECT_EQ(seen->write({"w", seen->head()->change}, "c", "Test", "to c").error().code,
              ErrorCode::kReadOnly);
    EXPECT_EQ(seen->attach("more.csv", "x").error().code, ErrorCode::kReadOnly);
    write(server, "c", "to c");  // meanwhile
    EXPECT_EQ(*seen->text(), "c");
  }
  EXPECT_EQ(files().size(), before.size());
  EXPECT_EQ(files().at("g.garden"), before.at("g.garden"));
}

TEST_F(Store, LooksWithoutATrace) {
  { write(*std::make_unique<GardenFile>(fresh("a")), "b", "to b"); }
  const Files before = files();
  ASSERT_EQ(before.size(), 1u);
  EXPECT_EQ(*GardenFile::look(path, kProgram)->text(), "b");
  EXPECT_EQ(files(), before);
  EXPECT_FALSE(GardenFile::look(folder + "/none.garden", kProgram).has_value());
  EXPECT_EQ(files(), before);
}

// A program was killed: its last words stand beside the file.
TEST_F(Store, LooksAtWhatAKilledProgramLeft) {
  Files left;
  {
    GardenFile killed = fresh("a");
    write(killed, "b", "to b");
    left = files();
  }
  const auto lay_out = [&](bool with_index) {
    for (const auto& [name, bytes] : files()) ::unlink((folder + "/" + name).c_str());
    for (const auto& [name, bytes] : left) {
      if (with_index || !name.ends_with("-shm"))
        std::ofstream(folder + "/" + name, std::ios::binary) << bytes;
    }
  };
  lay_out(false);  // copied without the index, which is made anew
  const Files before = files();
  ASSERT_EQ(before.size(), 2u);
  EXPECT_EQ(*GardenFile::look(path, kProgram)->text(), "b");
  EXPECT_EQ(files(), before);
  lay_out(true);
  EXPECT_EQ(*GardenFile::look(path, kProgram)->text(), "b");
  EXPECT_EQ(files().at("g.garden"), before.at("g.garden"));
  EXPECT_EQ(files().at("g.garden-wal"), before.at("g.garden-wal"));
  EXPECT_EQ(files().size(), 3u);
}

TEST_F(Store, LooksAtMediaThatMayOnlyBeRead) {
  { (void)fresh("a"); }
  ASSERT_EQ(::chmod(path.c_str(), 0444), 0);
  ASSERT_EQ(::chmod(folder.c_str(), 0555), 0);
  const bool was_root = ::geteuid() == 0;
  if (was_root) {
    ASSERT_EQ(::seteuid(65534), 0);
  }
  EXPECT_EQ(*GardenFile::look(path, kProgram)->text(), "a");
  if (was_root) {
    ASSERT_EQ(::seteuid(0), 0);
  }
  ASSERT_EQ(::chmod(folder.c_str(), 0755), 0);
}

TEST_F(Store, LooksAtEveryLayoutAndLeavesIt) {
  for (int layout = 1; layout <= kLayout; ++layout) {
    const std::string shipped =
        bytes_of(std::string(SPADEWORK_SOURCE_DIR) + "/src/store/testdata/layout-" +
                 std::to_string(layout) + ".garden");
    std::ofstream(path, std::ios::binary | std::ios::trunc) << shipped;
    auto file = GardenFile::look(path, kProgram);
    EXPECT_EQ(*file->text(), "title = \"Shipped\"\n# second\n") << layout;
    EXPECT_EQ(*file->attachment("rain.csv"), "date,rain_mm\n2026-01-01,3\n");
    EXPECT_EQ(bytes_of(path), shipped);
  }
}

TEST_F(Store, NamesTheDocumentInAGarden) {
  EXPECT_EQ(document_name("plots/ker-avel.garden"), "ker-avel.toml");
  EXPECT_EQ(document_name("ker-avel.garden"), "ker-avel.toml");
  EXPECT_EQ(document_name("/a.b/copy"), "copy.toml");
}

TEST_F(Store, NeverWritesOverAFile) {
  { (void)fresh("a"); }
  EXPECT_EQ(GardenFile::create(path, "b", "B", kProgram).error().code, ErrorCode::kConflict);
  EXPECT_EQ(*again().text(), "a");
}

TEST_F(Store, ListsTheGardensOfAFolderAndFindsFreeNames) {
  EXPECT_EQ(free_path(folder, "Ker Avel, 2"), folder + "/ker-avel-2.garden");
  EXPECT_EQ(free_path(folder, "庭"), folder + "/garden.garden");
  { (void)fresh(); }
  EXPECT_EQ(free_path(folder, "G"), folder + "/g-2.garden");
  std::ofstream(folder + "/other.txt") << "x";
  EXPECT_EQ(*gardens_in(folder), std::vector<std::string>{path});
  EXPECT_TRUE(gardens_in(folder + "/none")->empty());
  ASSERT_TRUE(make_folder(folder + "/a/b/c").has_value());
  struct stat made {};
  ASSERT_EQ(::stat((folder + "/a/b/c").c_str(), &made), 0);
  EXPECT_EQ(made.st_mode & 0777, 0700u);  // nobody else looks in
  EXPECT_FALSE(make_folder(path + "/under").has_value());
}

}  // namespace
}  // namespace spadework::store
