// Package picture draws what is easier to look at than to read: the week, the
// season, the age of larvae and the risk of a first virgin, as PNG for a phone held
// in sunlight. It draws what it is given, already worded; it knows no language, no
// clock and no database.
package picture
