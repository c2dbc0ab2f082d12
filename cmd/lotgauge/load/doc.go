// Package load is the only room that opens files: it finds the data folder,
// hands out its files and the listings after looking at what they are, and
// writes what is written, so that a reader never sees half a file.
package load
