// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/window.hpp"

#include <GL/gl.h>

#include <SFML/Graphics/Image.hpp>
#include <SFML/System/Sleep.hpp>
#include <SFML/Window/Event.hpp>
#include <SFML/Window/Window.hpp>
#include <algorithm>
#include <iterator>
#include <map>
#include <optional>
#include <set>
#include <utility>

namespace beforehand::stage {
namespace {

using sf::Keyboard;

Key named_key(const sf::Event::KeyEvent& e) {
  switch (e.code) {
    case Keyboard::Up:
      return Key::up;
    case Keyboard::Down:
      return Key::down;
    case Keyboard::Left:
      return Key::left;
    case Keyboard::Right:
      return Key::right;
    case Keyboard::Enter:
      return Key::enter;
    case Keyboard::Escape:
      return Key::escape;
    case Keyboard::Tab:
      return e.shift ? Key::back_tab : Key::tab;
    case Keyboard::Space:
      return Key::space;
    case Keyboard::Backspace:
      return Key::backspace;
    case Keyboard::PageUp:
      return Key::page_up;
    case Keyboard::PageDown:
      return Key::page_down;
    case Keyboard::Home:
      return Key::home;
    case Keyboard::End:
      return Key::end;
    case Keyboard::Insert:
      return Key::insert;
    case Keyboard::Delete:
      return Key::del;
    case Keyboard::F1:
      return Key::help;
    case Keyboard::F2:
      return Key::settings;
    case Keyboard::F3:
      return Key::f3;
    case Keyboard::F4:
      return Key::f4;
    case Keyboard::F5:
      return Key::f5;
    case Keyboard::F6:
      return Key::f6;
    case Keyboard::F7:
      return Key::f7;
    case Keyboard::F8:
      return Key::f8;
    default:
      return Key::none;
  }
}

// The order in which most gamepads of two thumbs and eight buttons number them.
Key button_key(unsigned button) {
  static constexpr Key keys[] = {Key::pad_south, Key::pad_east,          Key::pad_west,
                                 Key::pad_north, Key::pad_left_shoulder, Key::pad_right_shoulder,
                                 Key::pad_back,  Key::pad_start};
  return button < std::size(keys) ? keys[button] : Key::none;
}

char32_t symbol_of(Keyboard::Key code) {
  if (code >= Keyboard::A && code <= Keyboard::Z)
    return U'a' + static_cast<char32_t>(code - Keyboard::A);
  if (code >= Keyboard::Num0 && code <= Keyboard::Num9)
    return U'0' + static_cast<char32_t>(code - Keyboard::Num0);
  if (code >= Keyboard::Numpad0 && code <= Keyboard::Numpad9)
    return U'0' + static_cast<char32_t>(code - Keyboard::Numpad0);
  return 0;
}

std::optional<Input> of_key(const sf::Event::KeyEvent& e) {
  if (e.control || e.alt || e.system) {
    const bool up = e.code == Keyboard::Add || e.code == Keyboard::Equal;
    const bool down = e.code == Keyboard::Subtract || e.code == Keyboard::Hyphen;
    if (e.control && up) return Input::of_key(Key::scale_up);
    if (e.control && down) return Input::of_key(Key::scale_down);
    return std::nullopt;
  }
  if (const Key key = named_key(e); key != Key::none) return Input::of_key(key);
  if (const char32_t symbol = symbol_of(e.code); symbol != 0) return Input::of_symbol(symbol);
  return std::nullopt;
}

std::optional<Input> of_event(const sf::Event& e) {
  switch (e.type) {
    case sf::Event::Closed:
      return Input{Input::Kind::close, Key::none, 0, 0, 0, 0, 0};
    case sf::Event::LostFocus:
      return Input{Input::Kind::focus_lost, Key::none, 0, 0, 0, 0, 0};
    case sf::Event::KeyPressed:
      return of_key(e.key);
    case sf::Event::TextEntered:
      if (e.text.unicode < 32 || e.text.unicode == 127) return std::nullopt;
      return Input::of_text(static_cast<char32_t>(e.text.unicode));
    case sf::Event::MouseMoved:
      return Input::of_pointer(e.mouseMove.x, e.mouseMove.y);
    case sf::Event::MouseButtonPressed:
      if (e.mouseButton.button != sf::Mouse::Left) return std::nullopt;
      return Input::of_press(e.mouseButton.x, e.mouseButton.y);
    case sf::Event::MouseButtonReleased:
      if (e.mouseButton.button != sf::Mouse::Left) return std::nullopt;
      return Input::of_release(e.mouseButton.x, e.mouseButton.y);
    case sf::Event::MouseWheelScrolled:
      return Input::of_wheel(e.mouseWheelScroll.x, e.mouseWheelScroll.y,
                             static_cast<double>(e.mouseWheelScroll.delta));
    case sf::Event::JoystickButtonPressed: {
      const Key key = button_key(e.joystickButton.button);
      return key == Key::none ? std::nullopt
                              : std::optional(Input::of_pad(key, e.joystickButton.joystickId));
    }
    case sf::Event::JoystickDisconnected:
      return Input{Input::Kind::pad_lost, Key::none, 0, 0, 0, 0, 0};
    default:
      return std::nullopt;
  }
}

// A stick or a cross as a key: pressed once each time it leaves the middle.
Key axis_key(const sf::Event::JoystickMoveEvent& e) {
  constexpr float half = 50;
  const bool across = e.axis == sf::Joystick::X || e.axis == sf::Joystick::PovX;
  const bool along = e.axis == sf::Joystick::Y || e.axis == sf::Joystick::PovY;
  if (across && e.position <= -half) return Key::pad_left;
  if (across && e.position >= half) return Key::pad_right;
  if (along && e.position <= -half) return Key::pad_up;
  if (along && e.position >= half) return Key::pad_down;
  return Key::none;
}

}  // namespace

struct Window::Inside {
  sf::Window window;
  std::set<Keyboard::Key> down;  // letters and digits held: their repeats are not told
  std::map<std::pair<unsigned, int>, Key> leaning;  // sticks and crosses away from their middle

  std::optional<Input> lean(const sf::Event::JoystickMoveEvent& e) {
    Key& before = leaning[{e.joystickId, static_cast<int>(e.axis)}];
    const Key now = axis_key(e);
    if (now == before) return std::nullopt;
    before = now;
    return now == Key::none ? std::nullopt : std::optional(Input::of_pad(now, e.joystickId));
  }
};

// No larger than the screen, and in its middle: SFML 2 takes the screen's width for its height when
// it places a window, which leaves a wide screen at the bottom where nothing else places it.
Window::Window(const std::string& title, int width, int height) : inside_(new Inside) {
  const auto screen = sf::VideoMode::getDesktopMode();
  const sf::VideoMode mode(std::min(static_cast<unsigned>(width), screen.width),
                           std::min(static_cast<unsigned>(height), screen.height));
  const sf::ContextSettings plain(0, 0, 0, 2, 1);
  inside_->window.create(mode, title, sf::Style::Default, plain);
  inside_->window.setPosition({static_cast<int>(screen.width - mode.width) / 2,
                               static_cast<int>(screen.height - mode.height) / 2});
}

Window::~Window() = default;

std::vector<Input> Window::inputs(bool wait) {
  std::vector<Input> result;
  sf::Event event;
  for (int slept = 0;; slept += 10) {
    while (inside_->window.pollEvent(event)) {
      if (event.type == sf::Event::LostFocus) inside_->down.clear();
      if (event.type == sf::Event::KeyReleased) inside_->down.erase(event.key.code);
      if (event.type == sf::Event::KeyPressed && symbol_of(event.key.code) != 0 &&
          !inside_->down.insert(event.key.code).second)
        continue;
      const auto input = event.type == sf::Event::JoystickMoved ? inside_->lean(event.joystickMove)
                                                                : of_event(event);
      if (input) result.push_back(*input);
    }
    if (!wait || !result.empty() || slept >= 100) return result;
    sf::sleep(sf::milliseconds(10));
  }
}

void Window::show() { inside_->window.display(); }

bool Window::save_picture(const std::string& file) const {
  const auto size = inside_->window.getSize();
  std::vector<sf::Uint8> pixels(std::size_t{size.x} * size.y * 4);
  glPixelStorei(GL_PACK_ALIGNMENT, 1);
  glReadPixels(0, 0, static_cast<GLsizei>(size.x), static_cast<GLsizei>(size.y), GL_RGBA,
               GL_UNSIGNED_BYTE, pixels.data());
  for (std::size_t i = 3; i < pixels.size(); i += 4) pixels[i] = 255;
  sf::Image image;
  image.create(size.x, size.y, pixels.data());
  image.flipVertically();
  return image.saveToFile(file);
}

int Window::width() const { return static_cast<int>(inside_->window.getSize().x); }
int Window::height() const { return static_cast<int>(inside_->window.getSize().y); }

}  // namespace beforehand::stage
