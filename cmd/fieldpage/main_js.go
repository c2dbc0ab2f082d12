//go:build js

package main

import "syscall/js"

// main hands the page its function, says that it is ready and stays, or else
// the function would go with it.
func main() {
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
