// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/sound.hpp"

#include <SFML/Audio/Music.hpp>
#include <SFML/Audio/Sound.hpp>
#include <SFML/Audio/SoundBuffer.hpp>
#include <SFML/System/Clock.hpp>
#include <SFML/System/Err.hpp>
#include <algorithm>
#include <array>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <utility>

#include "stage/heard.hpp"

namespace beforehand::stage {
namespace {

namespace fs = std::filesystem;

constexpr float quiet = 18, clear = 60;  // of 100
constexpr float fading = 0.12f;          // seconds: noises that come and go at once click

bool is_there(const fs::path& path) {
  std::error_code failed;
  return fs::exists(path, failed);
}

// The library complains on the terminal about what is already taken care of.
class Hushed {
 public:
  Hushed() : before_(sf::err().rdbuf(nullptr)) {}
  ~Hushed() { sf::err().rdbuf(before_); }
  Hushed(const Hushed&) = delete;
  Hushed& operator=(const Hushed&) = delete;

 private:
  std::streambuf* before_;
};

}  // namespace

bool sound_card() {
  if (std::getenv("PULSE_SERVER") != nullptr) return true;
  if (const char* runtime = std::getenv("XDG_RUNTIME_DIR"); runtime != nullptr)
    if (is_there(fs::path(runtime) / "pulse/native") || is_there(fs::path(runtime) / "pipewire-0"))
      return true;
  std::ifstream cards("/proc/asound/cards");
  std::string first;
  return std::getline(cards, first) && first.find("no soundcards") == std::string::npos &&
         is_there("/dev/snd");
}

struct Sound::Player {
  Player() {
    for (std::size_t i = 0; i < noise_count; ++i) {
      load(noise_buffers[i], samples_of(static_cast<Noise>(i)));
      noises[i].setBuffer(noise_buffers[i]);
      noises[i].setLoop(true);
    }
    for (std::size_t i = 0; i < ring_count; ++i) {
      load(ring_buffers[i], samples_of(static_cast<Ring>(i)));
      rings[i].setBuffer(ring_buffers[i]);
      rings[i].setVolume(quiet * 1.5f);
    }
    voice.setVolume(clear);
  }

  static void load(sf::SoundBuffer& buffer, const std::vector<std::int16_t>& samples) {
    buffer.loadFromSamples(samples.data(), samples.size(), 1, sound_rate);
  }

  void silence() {
    for (auto& noise : noises) noise.stop();
    levels = {};
    voice.stop();
  }

  void play(const std::vector<bool>& heard) {
    const float step = quiet * frame.restart().asSeconds() / fading;
    for (std::size_t i = 0; i < noise_count; ++i) {
      levels[i] = std::clamp(levels[i] + (heard[i] ? step : -step), 0.f, quiet);
      noises[i].setVolume(levels[i]);
      const bool plays = noises[i].getStatus() == sf::Sound::Playing;
      if (levels[i] > 0 && !plays) noises[i].play();
      if (levels[i] == 0 && plays) noises[i].stop();
    }
  }

  void ring(const Timers& now) {
    if (now.nearly_over > timers.nearly_over) rings[0].play();
    if (now.set > timers.set) rings[1].play();
    timers = now;
  }

  std::array<sf::SoundBuffer, noise_count> noise_buffers;
  std::array<sf::SoundBuffer, ring_count> ring_buffers;
  std::array<sf::Sound, noise_count> noises;
  std::array<float, noise_count> levels{};
  sf::Clock frame;
  std::array<sf::Sound, ring_count> rings;
  sf::Music voice;
  bool on = false, silent = true;
  const Sitting* sitting = nullptr;
  std::size_t captions = 0;  // taken in so far
  Timers timers;
  std::string announced;  // what was spoken last before the drill
};

Sound::Sound(std::string speech) : speech_(std::move(speech)) {
  if (!sound_card()) return;
  const Hushed hushed;
  player_ = std::make_unique<Player>();
}

Sound::~Sound() = default;

void Sound::announce(const std::string& plan, const std::string& language) {
  if (!player_) return;
  const auto heard = player_->on ? plan : std::string();
  if (std::exchange(player_->announced, heard) == heard) return;
  if (heard.empty() && player_->sitting == nullptr) player_->voice.stop();
  if (!heard.empty()) say(heard, language);
}

// Speaks a text, if it was recorded and sound is on.
void Sound::say(const std::string& text, const std::string& language) {
  if (!player_ || !player_->on) return;
  const auto file = fs::path(speech_) / language / (speech_name(text) + ".wav");
  if (!is_there(file)) return;
  const Hushed hushed;
  player_->voice.stop();
  if (player_->voice.openFromFile(file.string())) player_->voice.play();
}

void Sound::follow(const Sitting* sitting, bool on, const std::string& language) {
  if (!player_) return;
  auto& player = *player_;
  player.on = on;
  if (sitting != player.sitting) {
    player.sitting = sitting;
    player.captions = 0;
    player.timers = {};
  }
  const bool still = !on || sitting == nullptr || sitting->clock().paused() || sitting->lapsing();
  if (still && !player.silent) player.silence();
  player.silent = still;
  if (still) return;
  player.play(heard_in(sitting->procedure(), sitting->world()));
  if (const double speed = handpiece_speed(sitting->procedure(), sitting->world()); speed > 0)
    player.noises[static_cast<std::size_t>(Noise::handpiece)].setPitch(static_cast<float>(speed));
  player.ring(timers_in(sitting->procedure(), sitting->world()));
  for (; player.captions < sitting->captions().size(); ++player.captions) {
    const auto& caption = sitting->captions()[player.captions];
    if (caption.kind == Caption::Kind::said || caption.kind == Caption::Kind::asked)
      say(caption.text, language);
  }
}

}  // namespace beforehand::stage
