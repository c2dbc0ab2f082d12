package load

import "path/filepath"

// Variable is the environment variable that names the data folder.
const Variable = "LOTGAUGE_DATA"

// place returns the data folder that the platform's custom gives to this
// program, or "" where the environment does not say where the user lives. On
// Unix it is the XDG Base Directory Specification's data home, a relative one
// being ignored as that specification asks.
func place(goos string, getenv func(string) string) string {
	home := getenv("HOME")
	switch goos {
	case "windows":
		return below(getenv("LocalAppData"), "lotgauge")
	case "darwin", "ios":
		return below(home, "Library", "Application Support", "lotgauge")
	}
	if data := getenv("XDG_DATA_HOME"); filepath.IsAbs(data) {
		return filepath.Join(data, "lotgauge")
	}
	return below(home, ".local", "share", "lotgauge")
}

// below joins a path, and gives "" where its root is not known.
func below(root string, elements ...string) string {
	if root == "" {
		return ""
	}
	return filepath.Join(append([]string{root}, elements...)...)
}
