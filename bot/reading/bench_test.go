package reading

import (
	"strings"
	"testing"
)

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		if _, err := Load(Data()); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkRead reads a message of middling length, with an open batch.
func BenchmarkRead(b *testing.B) {
	r, err := Load(Data())
	if err != nil {
		b.Fatal(err)
	}
	k := knownFiles(b)["s/C3 @Ana"]
	for b.Loop() {
		r.Read("moved 34 to North and fed B1, hot out there", k)
	}
}

// BenchmarkReadLong reads ten thousand characters.
func BenchmarkReadLong(b *testing.B) {
	r, err := Load(Data())
	if err != nil {
		b.Fatal(err)
	}
	k := knownFiles(b)["s/C3 @Ana"]
	text := strings.Repeat("moved 34 to North and fed B1, hot out there. ", 10000/45)
	for b.Loop() {
		r.Read(text, k)
	}
}
