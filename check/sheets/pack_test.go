package sheets_test

import (
	"crypto/sha256"
	"encoding/hex"
	"testing"

	"hame/check"
	"hame/check/sheets"
	"hame/lang/source"
)

// TestHash: the hash tells texts apart, not the folder in which they stand. What
// it is over is worked out here by hand.
func TestHash(t *testing.T) {
	const library, harness = "part lamp is load led { draws 27 W }\n", "harness one { system 12 V }\nuse \"lamps.hame\"\n"
	hashOf := func(name, text string) string {
		read := func(string) (string, error) { return library, nil }
		return sheets.NewPack(check.File(source.New(name, text), check.Options{Read: read}), sheets.Options{}).Head().Hash
	}
	sum := sha256.Sum256([]byte("one.hame\x00" + harness + "\x00lamps.hame\x00" + library + "\x00"))
	want := hex.EncodeToString(sum[:])
	for _, name := range []string{"one.hame", "boats/one.hame", "/srv/boats/one.hame"} {
		if got := hashOf(name, harness); got != want {
			t.Errorf("%s has the hash %s, want %s", name, got, want)
		}
	}
	for name, elsewhere := range map[string]string{"/srv/boats/one.hame": "/srv/parts/lamps.hame", "boats/one.hame": "parts/lamps.hame", "one.hame": "../lamps.hame"} {
		p := sheets.NewPack(check.File(source.New(name, "harness one { system 12 V }\n"), check.Options{}), sheets.Options{})
		if got := p.FileName(name) + " " + p.FileName(elsewhere); got != "one.hame lamps.hame" {
			t.Errorf("papers of %s have %s", name, got)
		}
	}
	if hashOf("one.hame", harness+" ") == want {
		t.Error("another text has the same hash")
	}
}
