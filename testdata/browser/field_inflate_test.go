package browser

import (
	"bytes"
	"compress/gzip"
	"encoding/base64"
	"math/rand/v2"
	"strings"
	"testing"
)

// gzipped compresses at a level of compress/gzip.
func gzipped(t *testing.T, data []byte, level int) []byte {
	t.Helper()
	var b bytes.Buffer
	w, err := gzip.NewWriterLevel(&b, level)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := w.Write(data); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// inflate is what the page's own script makes of gzipped bytes: what they hold,
// or "refused".
const inflate = `
	const bytes = (text) => Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
	try {
		let out = "";
		for (const b of inflated(bytes(zipped))) out += String.fromCharCode(b);
		return btoa(out);
	} catch (e) {
		return "refused";
	}`

func (x *handset) inflated(zipped []byte) string {
	x.t.Helper()
	return ask[string](x.t, x.tab, "const zipped = "+quote(base64.StdEncoding.EncodeToString(zipped))+";"+inflate)
}

// TestFieldInflate: the page's own decompressor reads blocks of every kind, and
// refuses what is damaged.
func TestFieldInflate(t *testing.T) {
	x := openField(t, upright)
	noise := make([]byte, 70_000)
	rand.NewChaCha8([32]byte{3}).Read(noise)
	texts := map[string][]byte{
		"empty": nil, "short": []byte("abcabcabc"), "noise": noise,
		"runs":  bytes.Repeat([]byte{0}, 100_000),
		"words": []byte(strings.Repeat("the quick brown fox ", 3000) + string(noise[:1000])),
	}
	for name, text := range texts {
		for _, level := range []int{gzip.NoCompression, gzip.BestSpeed, gzip.BestCompression, gzip.HuffmanOnly} {
			zipped := gzipped(t, text, level)
			if x.inflated(zipped) != base64.StdEncoding.EncodeToString(text) {
				t.Errorf("%s at level %d came out as something else", name, level)
			}
			for _, cut := range []int{len(zipped) - 1, len(zipped) / 2, 12} {
				if got := x.inflated(zipped[:cut]); got != "refused" {
					t.Errorf("%s at level %d, cut at %d of %d, came out", name, level, cut, len(zipped))
				}
			}
			zipped[len(zipped)-6] ^= 1 // of the checksum
			if got := x.inflated(zipped); got != "refused" {
				t.Errorf("%s at level %d with a wrong checksum came out", name, level)
			}
		}
	}
}
