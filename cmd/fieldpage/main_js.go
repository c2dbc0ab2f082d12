//go:build js

package main

import (
	"runtime/debug"
	"syscall/js"
)

// garbage is how much of it may pile up, in percent of what is in use, some ten
// megabytes: collecting it halts the page.
const garbage = 400

// main hands the page its function, says that it is ready and stays, or else
// the function would go with it.
func main() {
	debug.SetGCPercent(garbage)
	var d desk
	js.Global().Set("lotgaugeEngine", js.FuncOf(func(_ js.Value, args []js.Value) any {
		if len(args) != 2 || args[0].Type() != js.TypeString || args[1].Type() != js.TypeString {
			return answer(nil, faultf("expected an operation and its argument, both text"))
		}
		return d.call(args[0].String(), args[1].String())
	}))
	if ready := js.Global().Get("lotgaugeReady"); ready.Type() == js.TypeFunction {
		ready.Invoke()
	}
	select {}
}
