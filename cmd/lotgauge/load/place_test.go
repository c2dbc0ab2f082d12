package load

import (
	"path/filepath"
	"testing"
)

func TestPlace(t *testing.T) {
	abs, err := filepath.Abs("data")
	if err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		name, goos string
		env        map[string]string
		want       string
	}{
		{"home", "linux", map[string]string{"HOME": "/home/ann"}, "/home/ann/.local/share/lotgauge"},
		{"data home", "linux", map[string]string{"HOME": "/home/ann", "XDG_DATA_HOME": abs}, filepath.Join(abs, "lotgauge")},
		{"relative data home is ignored", "linux", map[string]string{"HOME": "/home/ann", "XDG_DATA_HOME": "data"}, "/home/ann/.local/share/lotgauge"},
		{"no home", "linux", nil, ""},
		{"BSD is like Linux", "freebsd", map[string]string{"HOME": "/home/ann"}, "/home/ann/.local/share/lotgauge"},
		{"mac", "darwin", map[string]string{"HOME": "/Users/ann", "XDG_DATA_HOME": abs}, "/Users/ann/Library/Application Support/lotgauge"},
		{"mac without home", "darwin", nil, ""},
		{"windows", "windows", map[string]string{"LocalAppData": "/c/local", "HOME": "/home/ann"}, "/c/local/lotgauge"},
		{"windows without profile", "windows", map[string]string{"HOME": "/home/ann"}, ""},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := place(test.goos, func(key string) string { return test.env[key] })
			if filepath.ToSlash(got) != filepath.ToSlash(test.want) {
				t.Errorf("place = %q, want %q", got, test.want)
			}
		})
	}
}
