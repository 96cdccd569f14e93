// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study/phrases.hpp"

namespace beforehand::study {
namespace {

constexpr Phrases in_english{
    .other_first = "Let {0} do \"{1}\" rather than {2}.",
    .other_too = "Let {0} do \"{1}\" when {2} has not begun it in time.",
    .other_caution =
        "Who may do it is settled by the law where you work, the registration and the clinician.",
    .beforehand = "Do \"{0}\" before the patient sits.",
    .keeps_that_long =
        "Only what its instructions allow to lie ready that long, covered and labelled.",
    .keep_covered = "Only what will be used; keep it covered until then.",
    .earlier = "Begin \"{0}\" as \"{1}\" begins, not when it is done.",
    .keeps_until_used = "Only if what is made ready keeps until it is used.",
    .nearer_supply = "Let \"{0}\" lie at \"{1}\" (motion class {2}), not at \"{3}\" (class {4}).",
    .nearer_supply_caution = "Only if there is room, and nothing soiled beside it.",
    .nearer_place = "Bring \"{0}\" within reach of the wrist (motion class II, not {1}).",
    .nearer_place_caution =
        "Only if it can stand there safely and stays clean, or apart, as it must.",

    .begin_sooner =
        "At {0} everything for \"{1}\" was there and it began {2} later: begin, or say "
        "what you wait for.",
    .say_ahead = "You asked {0}, first for \"{1}\": say one step ahead what comes next.",
    .let_the_other = "You helped yourself {0}: ask first, and let the other do it.",
    .once = "once",
    .times = "{0} times",
    .change_with_example = "{0} At {1}: {2}",
};

constexpr Phrases in_spanish{
    .other_first = "Que «{1}» lo haga {0} y no {2}.",
    .other_too = "Que «{1}» lo haga {0} cuando {2} no lo haya empezado a tiempo.",
    .other_caution =
        "Quién puede hacerlo lo deciden la ley del lugar donde trabajas, el registro "
        "profesional y el clínico.",
    .beforehand = "Haz «{0}» antes de que se siente el paciente.",
    .keeps_that_long =
        "Solo lo que según sus instrucciones puede estar listo tanto tiempo, tapado "
        "y rotulado.",
    .keep_covered = "Solo lo que se va a usar; tenlo tapado hasta entonces.",
    .earlier = "Empieza «{0}» cuando empieza «{1}», no cuando acaba.",
    .keeps_until_used = "Solo si lo preparado aguanta hasta que se usa.",
    .nearer_supply = "Pon «{0}» en «{1}» (alcance de clase {2}), no en «{3}» (clase {4}).",
    .nearer_supply_caution = "Solo si hay sitio y nada sucio al lado.",
    .nearer_place = "Acerca «{0}» al alcance de la muñeca (alcance de clase II, no {1}).",
    .nearer_place_caution =
        "Solo si puede estar ahí sin peligro y sigue limpio, o aparte, como debe.",

    .begin_sooner =
        "En {0} estaba todo lo de «{1}» y empezó {2} después: empieza, o di a qué "
        "esperas.",
    .say_ahead = "Pediste algo {0}, primero para «{1}»: di un paso antes lo que viene.",
    .let_the_other = "Lo cogiste por tu cuenta {0}: pídelo antes y deja que lo haga el otro.",
    .once = "una vez",
    .times = "{0} veces",
    .change_with_example = "{0} En {1}: {2}",
};

}  // namespace

const Phrases& phrases(std::string_view language) {
  return language == "es" ? in_spanish : in_english;
}

}  // namespace beforehand::study
