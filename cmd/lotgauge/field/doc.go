// Package field makes the phone page: one HTML file that inspects and appraises
// finds at a stall, without a network. Inside are the engine of the command
// line, compiled to js/wasm (cmd/fieldpage), and what of a data folder the
// chosen families need. The page asks for nothing: its Content-Security-Policy
// forbids every request.
//
// # The file
//
// The page is in windows-1252, since that encoding, like no other that browsers
// know, gives every byte a character: the engine lies in it byte for byte (see
// pack) at 2% more than its size, where base64 would take 33%. Before that its
// code is sorted so that it compresses to four fifths (see split). Without the
// two the page would not stay within its 2 MB. Everything else in the page is ASCII. Text of the user is UTF-8
// JSON inside a packed block.
//
// # The engine
//
// The engine must be that of the command that writes the page, so that both
// give the same figures. It is not checked in: it is 1.6 MB that change with
// every edit of the engine and with every release of Go. Instead
//
//   - a command built from a checkout, or by go install, builds it from the
//     source it was itself built from, by the go command;
//   - a released command has it embedded: `go generate ./cmd/lotgauge/field`
//     puts it into the folder engine before the command is built with -trimpath.
//     A release commit that carries the folder's files makes `go install
//     …@version` do without a toolchain too.
//
// Source goes before what is embedded, which therefore cannot be stale: it is
// only used where the source is not at hand. A test builds the engine twice and
// holds the bytes against each other, and against the embedded ones.
//
// # On the way to the phone
//
// [Build] writes the file; [Serve] hands it to a phone over the local network.
package field
