// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// A real window on a screen in memory, driven by the keys of a real keyboard through a whole short
// drill.
#include <fcntl.h>
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdlib>
#include <fstream>
#include <functional>
#include <regex>
#include <sstream>
#include <thread>

#include "drill/recording.hpp"
#include "playing.hpp"
#include "stage/app.hpp"

namespace beforehand::stage {
namespace {

namespace fs = std::filesystem;
using std::chrono::milliseconds;
using std::chrono::seconds;

// The recording ends before the clinician's last word, and the debrief listens a little later.
constexpr auto until_debrief =
    DrillScreen::last_word + Program::deaf_after_a_drill + milliseconds(2000);

bool installed(const std::string& program) {
  return std::system(("command -v " + program + " >/dev/null 2>&1").c_str()) == 0;
}

// An X server of our own, on a number it chooses itself. It does not begin anew when its last
// client goes: whoever asked it just then would get no answer.
class Screen {
 public:
  Screen() {
    int ends[2];
    if (::pipe(ends) != 0) return;
    server_ = ::fork();
    if (server_ == 0) {
      ::close(ends[0]);
      const auto fd = std::to_string(ends[1]);
      ::execlp("Xvfb", "Xvfb", "-displayfd", fd.c_str(), "-screen", "0", "1280x720x24", "-nolisten",
               "tcp", "-noreset", nullptr);
      ::_exit(127);
    }
    ::close(ends[1]);
    char c = 0;
    while (::read(ends[0], &c, 1) == 1 && c != '\n') number_ += c;
    ::close(ends[0]);
  }
  ~Screen() {
    if (server_ <= 0) return;
    ::kill(server_, SIGTERM);
    ::waitpid(server_, nullptr, 0);
  }
  Screen(const Screen&) = delete;
  Screen& operator=(const Screen&) = delete;
  bool works() const { return !number_.empty(); }
  std::string name() const { return ":" + number_; }

 private:
  pid_t server_ = -1;
  std::string number_;
};

// The program in a process of its own, so that its window and its exit code are real.
class Shown {
 public:
  Shown(const Screen& screen, const AppOptions& options) : display_(screen.name()) {
    child_ = ::fork();
    if (child_ == 0) {
      ::setenv("DISPLAY", display_.c_str(), 1);
      ::setenv("LIBGL_ALWAYS_SOFTWARE", "1", 1);
      ::_exit(run_window(options));
    }
  }
  ~Shown() {
    if (child_ <= 0) return;
    ::kill(child_, SIGKILL);
    ::waitpid(child_, nullptr, 0);
  }
  Shown(const Shown&) = delete;
  Shown& operator=(const Shown&) = delete;

  bool do_with_keyboard(const std::string& arguments) const {
    return std::system(
               ("DISPLAY=" + display_ + " xdotool " + arguments + " >/dev/null 2>&1").c_str()) == 0;
  }
  void key(const std::string& name) const {
    do_with_keyboard("key " + name);
    std::this_thread::sleep_for(milliseconds(150));
  }
  bool waits_for_window(seconds limit) const {
    const auto until = std::chrono::steady_clock::now() + limit;
    while (std::chrono::steady_clock::now() < until) {
      if (do_with_keyboard("search --onlyvisible --name Beforehand mousemove 640 360")) return true;
      std::this_thread::sleep_for(milliseconds(100));
    }
    return false;
  }
  // The exit code, or nothing when it goes on.
  std::optional<int> ended(seconds limit) {
    const auto until = std::chrono::steady_clock::now() + limit;
    while (std::chrono::steady_clock::now() < until) {
      int status = 0;
      if (::waitpid(child_, &status, WNOHANG) == child_) {
        child_ = -1;
        return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
      }
      std::this_thread::sleep_for(milliseconds(100));
    }
    return std::nullopt;
  }

 private:
  std::string display_;
  pid_t child_ = -1;
};

std::string content_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream content;
  content << in.rdbuf();
  return content.str();
}

fs::path only_file_in(const fs::path& folder) {
  std::error_code failed;
  for (const auto& entry : fs::directory_iterator(folder, failed)) return entry.path();
  return {};
}

// The smallest scenario with every time of seconds halved: a window is played in real time.
std::string short_scenario() {
  const auto text = content_of(fs::path(PROJECT_DIR "/tests/scenarios/good/tiny.yaml"));
  const std::regex seconds_of("([0-9]+) s\\b");
  std::string result;
  auto from = text.begin();
  for (std::sregex_iterator at(text.begin(), text.end(), seconds_of), end; at != end; ++at) {
    result.append(from, text.begin() + at->position());
    result += std::to_string(std::max(1, std::stoi((*at)[1]) / 2)) + " s";
    from = text.begin() + at->position() + at->length();
  }
  return result.append(from, text.end());
}

ShelfItem item_in(const TemporaryFolder& folder) {
  return read_item({folder / "scenarios/tiny/scenario.yaml", "", ""}, "en");
}

AppOptions options_in(const TemporaryFolder& folder) {
  fs::create_directories(folder.path() / "scenarios/tiny");
  std::ofstream(folder.path() / "scenarios/tiny/scenario.yaml") << short_scenario();
  AppOptions options;
  options.scenarios = folder / "scenarios";
  options.strings = PROJECT_DIR "/assets/strings";
  options.data = folder / "data";
  options.frame_times = folder / "frames.txt";
  return options;
}

TEST(Window, AWholeDrillByTheKeyboardAlone) {
  if (!installed("Xvfb") || !installed("xdotool"))
    GTEST_SKIP() << "Xvfb and xdotool are needed to show a window and press its keys";
  const Screen screen;
  if (!screen.works()) GTEST_SKIP() << "no X server can be started here";
  const TemporaryFolder folder;
  const auto options = options_in(folder);
  Shown shown(screen, options);
  ASSERT_TRUE(shown.waits_for_window(seconds(30)));
  std::this_thread::sleep_for(milliseconds(1000));
  shown.key("Tab");
  shown.key("Tab");
  for (int i = 0; i < 6; ++i) shown.key("Right");  // the fastest pace
  shown.key("Return");
  shown.key("Return");
  const auto until = std::chrono::steady_clock::now() + seconds(150);
  fs::path recording;
  while (recording.empty() && std::chrono::steady_clock::now() < until) {
    recording = only_file_in(folder.path() / "data/recordings");
    std::this_thread::sleep_for(milliseconds(100));
  }
  ASSERT_FALSE(recording.empty()) << "no drill began";
  const auto item = item_in(folder);
  ASSERT_TRUE(item.procedure);
  const auto& procedure = *item.procedure;
  drill::Session session;
  const auto cards = action_cards(procedure, procedure.who(procedure::Role::assistant), english());
  for (std::size_t i = 0; !session.complete() && std::chrono::steady_clock::now() < until; ++i) {
    shown.key(cards[i % cards.size()].keys);
    session = drill::from_text(content_of(recording), procedure, recording.string());
  }
  ASSERT_TRUE(session.complete());
  EXPECT_GT(session.commands.size(), 3u);
  EXPECT_EQ(session.setup.assistant, "human");
  drill::verify(procedure, session, recording.string());
  std::this_thread::sleep_for(until_debrief);
  shown.key("Escape");
  shown.key("Escape");
  EXPECT_EQ(shown.ended(seconds(20)), 0);
  const auto frames = content_of(options.frame_times);
  for (const char* stand : {"first-frame ", "start ", "briefing ", "drill ", "debrief "})
    EXPECT_NE(frames.find(stand), std::string::npos) << stand;
}

bool can_be_shown() { return installed("Xvfb") && installed("xdotool"); }

// The recording of the drill that is played, once it has begun.
fs::path recording_in(const TemporaryFolder& folder, seconds limit) {
  const auto until = std::chrono::steady_clock::now() + limit;
  while (std::chrono::steady_clock::now() < until) {
    if (auto file = only_file_in(folder.path() / "data/recordings"); !file.empty()) return file;
    std::this_thread::sleep_for(milliseconds(100));
  }
  return {};
}

// Plays until the recording is complete, one round after another.
drill::Session play_window(const procedure::Procedure& procedure, const fs::path& recording,
                           const std::function<void(std::size_t round)>& act) {
  drill::Session session;
  const auto until = std::chrono::steady_clock::now() + seconds(150);
  for (std::size_t i = 0; !session.complete() && std::chrono::steady_clock::now() < until; ++i) {
    act(i);
    session = drill::from_text(content_of(recording), procedure, recording.string());
  }
  return session;
}

// A press of the mouse in the window. Where to press is found on a screen of the same size that is
// not shown.
struct Mouse {
  const Shown& shown;
  Program twin = program_on(tiny_shelf());

  void press(double x, double y) const {
    shown.do_with_keyboard("search --onlyvisible --name Beforehand mousemove --window %1 " +
                           std::to_string(static_cast<int>(x)) + " " +
                           std::to_string(static_cast<int>(y)) + " click 1");
    std::this_thread::sleep_for(milliseconds(300));
  }
  bool press_on(const std::string& text) {
    const auto seen = look_at(twin, 1280, 720, 1);
    for (const auto& one : seen.texts)
      if (one.line.find(text) != std::string::npos) {
        press(one.visible.centre().x, one.visible.centre().y);
        std::this_thread::sleep_for(milliseconds(1500));  // the next screen has to be drawn first
        return stage::press_on(twin, text);
      }
    return false;
  }
  void press_card(ActionIx action) {
    look_at(twin, 1280, 720, 1);
    const auto box = twin.drill()->hits().box_of(stage::press_card + static_cast<int>(action.at()));
    if (box) press(box->centre().x, box->centre().y);
  }
};

// The window changes its size and place meanwhile, and what is pressed means the same.
TEST(Window, AWholeDrillByTheMouseAloneInAWindowThatIsMovedAndResized) {
  if (!can_be_shown()) GTEST_SKIP() << "Xvfb and xdotool are needed to show a window";
  const Screen screen;
  if (!screen.works()) GTEST_SKIP() << "no X server can be started here";
  const TemporaryFolder folder;
  Shown shown(screen, options_in(folder));
  ASSERT_TRUE(shown.waits_for_window(seconds(30)));
  std::this_thread::sleep_for(milliseconds(1000));
  // Without a window manager it may begin partly off the screen, where no mouse gets.
  shown.do_with_keyboard("search --onlyvisible --name Beforehand windowmove %1 0 0");
  Mouse mouse{shown};
  for (const char* text : {"3×", "To the briefing", "Begin the drill"})
    ASSERT_TRUE(mouse.press_on(text)) << text;
  ASSERT_EQ(mouse.twin.stand(), Program::Stand::drill);
  const auto recording = recording_in(folder, seconds(30));
  ASSERT_FALSE(recording.empty()) << "no drill began";
  const auto item = item_in(folder);
  ASSERT_TRUE(item.procedure);
  const auto& procedure = *item.procedure;
  const auto cards = action_cards(procedure, procedure.who(procedure::Role::assistant), english());
  const auto window = [&](const std::string& what) {
    shown.do_with_keyboard("search --onlyvisible --name Beforehand " + what);
    std::this_thread::sleep_for(milliseconds(300));
  };
  const auto session = play_window(procedure, recording, [&](std::size_t round) {
    if (round == 1) window("windowsize %1 700 500"), window("windowsize %1 1280 720");
    if (round == 2) window("windowmove %1 40 30"), window("windowmove %1 0 0");
    mouse.press_card(cards[round % cards.size()].action);
  });
  ASSERT_TRUE(session.complete());
  EXPECT_GT(session.commands.size(), 3u);
  drill::verify(procedure, session, recording.string());
}

// A gamepad cannot be plugged into this machine: its buttons come in through the same door as the
// window's inputs.
TEST(Window, AWholeDrillByTheGamepadAlone) {
  if (!can_be_shown()) GTEST_SKIP() << "Xvfb and xdotool are needed to show a window";
  const Screen screen;
  if (!screen.works()) GTEST_SKIP() << "no X server can be started here";
  const TemporaryFolder folder;
  int ends[2];
  ASSERT_EQ(::pipe2(ends, O_NONBLOCK), 0);
  auto options = options_in(folder);
  options.more_inputs = [fd = ends[0]](const Program&) {
    std::vector<Input> inputs;
    for (unsigned char c = 0; ::read(fd, &c, 1) == 1;)
      inputs.push_back(Input::of_key(static_cast<Key>(c)));
    return inputs;
  };
  Shown shown(screen, options);
  const auto pad = [&](Key key) {
    const auto c = static_cast<unsigned char>(key);
    EXPECT_EQ(::write(ends[1], &c, 1), 1);
    std::this_thread::sleep_for(milliseconds(60));
  };
  ASSERT_TRUE(shown.waits_for_window(seconds(30)));
  pad(Key::pad_west);
  pad(Key::pad_west);
  for (int i = 0; i < 6; ++i) pad(Key::pad_right);  // the fastest pace
  pad(Key::pad_south);
  pad(Key::pad_south);
  const auto recording = recording_in(folder, seconds(30));
  ASSERT_FALSE(recording.empty()) << "no drill began";
  const auto item = item_in(folder);
  ASSERT_TRUE(item.procedure);
  const auto& procedure = *item.procedure;
  const auto session = play_window(procedure, recording, [&](std::size_t round) {
    pad(Key::pad_down);
    if (round < 12) pad(Key::pad_south);  // one too late would begin the next drill
  });
  ASSERT_TRUE(session.complete());
  EXPECT_GT(session.commands.size(), 3u);
  drill::verify(procedure, session, recording.string());
  std::this_thread::sleep_for(until_debrief);
  pad(Key::pad_east);
  pad(Key::pad_east);
  EXPECT_EQ(shown.ended(seconds(20)), 0);
  ::close(ends[0]);
  ::close(ends[1]);
}

// Out of sight and back: the program goes on, and ends as it should.
TEST(Window, CanBeMinimisedAndBroughtBack) {
  if (!can_be_shown()) GTEST_SKIP() << "Xvfb and xdotool are needed to show a window";
  const Screen screen;
  if (!screen.works()) GTEST_SKIP() << "no X server can be started here";
  const TemporaryFolder folder;
  Shown shown(screen, options_in(folder));
  ASSERT_TRUE(shown.waits_for_window(seconds(30)));
  shown.key("Return");
  shown.key("Return");
  ASSERT_FALSE(recording_in(folder, seconds(30)).empty());
  shown.do_with_keyboard("search --onlyvisible --name Beforehand windowunmap %1");
  EXPECT_EQ(shown.ended(seconds(2)), std::nullopt);
  shown.do_with_keyboard("search --name Beforehand windowmap %1");
  ASSERT_TRUE(shown.waits_for_window(seconds(30)));
  shown.key("Escape");
  shown.key("Return");  // left
  std::this_thread::sleep_for(milliseconds(2000));
  shown.key("Escape");
  shown.key("Escape");
  EXPECT_EQ(shown.ended(seconds(20)), 0);
}

TEST(Window, OpensInTheMiddleOfTheScreenAndNoLargerThanIt) {
  if (!can_be_shown()) GTEST_SKIP() << "Xvfb and xdotool are needed to show a window";
  const Screen screen;  // of 1280 by 720
  if (!screen.works()) GTEST_SKIP() << "no X server can be started here";
  const TemporaryFolder folder;
  const std::string file = folder / "place";
  for (const auto& [width, height, place] :
       {std::tuple{1000, 600, "X=140\nY=60\nWIDTH=1000\nHEIGHT=600\n"},
        {1920, 1080, "X=0\nY=0\nWIDTH=1280\nHEIGHT=720\n"}}) {
    auto options = options_in(folder);
    options.width = width;
    options.height = height;
    const Shown shown(screen, options);
    ASSERT_TRUE(shown.waits_for_window(seconds(30)));
    const auto is_there = [&, place = std::string(place)] {
      shown.do_with_keyboard("search --name Beforehand getwindowgeometry --shell >" + file + ";:");
      return content_of(file).find(place) != std::string::npos;
    };
    for (int i = 0; i < 50 && !is_there(); ++i) std::this_thread::sleep_for(milliseconds(100));
    EXPECT_TRUE(is_there()) << content_of(file);
  }
}

TEST(Window, WithoutADisplayItSaysSoAndGivesThree) {
  const auto child = ::fork();
  if (child == 0) {
    ::unsetenv("DISPLAY");
    ::_exit(run_window({}));
  }
  int status = 0;
  ASSERT_EQ(::waitpid(child, &status, 0), child);
  EXPECT_TRUE(WIFEXITED(status));
  EXPECT_EQ(WEXITSTATUS(status), 3);
}

}  // namespace
}  // namespace beforehand::stage
