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
