// Package attach makes the files that go with a message: pictures, calendars, records and photos, when it goes.
package attach
