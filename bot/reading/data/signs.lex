# Signs that belong to no language.
language signs
AT: @
DASH: -
PERCENT: %
NUMBERSIGN: #
AND: & | +
APPROX: ~
POSS: 's | s
CORRECT: *
TIMES: x | × | *
OKWORD: 👍 | 👌 | 🫡
DONEWORD.done: ✅ | ✔ | ☑
AGAIN: 🔁

# --- commands
command BOTNAME: yardbell | @yardbell | yardbell_bot | @yardbell_bot
command LANGUAGE=en: en
command LANGUAGE=es: es
