// Fieldpage is the engine as the phone page runs it: compiled to js/wasm, text
// in, text out. The page's scripts call it by one function,
//
//	lotgaugeEngine(operation, argument string) string
//
// which answers a JSON object: {"ok": …} or {"error": {"message": …, "lines":
// […]}}. A fault of the program is answered too, marked as broken, since a panic
// would stop everything without a word. The operations are in desk.go.
//
// The package puts text into another form and decides nothing: what is figured
// is figured under valuation.
package main
