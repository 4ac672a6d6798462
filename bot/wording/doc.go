// Package wording says everything the bot says: the catalogue of each language, numbers, dates,
// lists, and pings, which are worded when they go so that they say what is true then.
package wording
