package field

import (
	"bytes"
	"math/rand/v2"
	"strings"
	"testing"
)

// unpack is what unpack.js does, by way of bytes instead of characters.
func unpack(t testing.TB, packed []byte) []byte {
	t.Helper()
	var out []byte
	for i := 0; i < len(packed); i++ {
		b := packed[i]
		if b == escape {
			i++
			b = packed[i] - lift
		}
		out = append(out, b-shift)
	}
	return out
}

// checkPack holds what must be true of any bytes that are packed.
func checkPack(t *testing.T, data []byte) {
	t.Helper()
	packed := pack(data)
	if got := unpack(t, packed); !bytes.Equal(got, data) {
		t.Fatalf("%q came back as %q", data, got)
	}
	if i := bytes.IndexAny(packed, "\x00\r<"); i >= 0 {
		t.Fatalf("%q has %q in it, which HTML changes", packed, packed[i])
	}
}

func TestPack(t *testing.T) {
	var all []byte
	for b := range 256 {
		all = append(all, byte(b))
	}
	checkPack(t, nil)
	checkPack(t, all)
	checkPack(t, bytes.Repeat(all, 3))
	checkPack(t, []byte("</script><!--\x00\r\n"))
}

// TestPackIsDense: what is gzipped, and so all but random, grows by under 2%.
func TestPackIsDense(t *testing.T) {
	data := make([]byte, 1<<20)
	rand.NewChaCha8([32]byte{1}).Read(data)
	if n := len(pack(data)); n > len(data)*102/100 {
		t.Errorf("%d bytes became %d", len(data), n)
	}
}

func FuzzPack(f *testing.F) {
	f.Add([]byte("\x00\xff=<\r"))
	f.Fuzz(checkPack)
}

func TestCompressIsReproducible(t *testing.T) {
	data := []byte(strings.Repeat("locomotive ", 100))
	if !bytes.Equal(compress(data), compress(data)) {
		t.Error("the same bytes are gzipped in two ways")
	}
}
