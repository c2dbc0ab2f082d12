package main

import (
	"bytes"
	"context"
	"net"
	"os"
	"os/signal"
	"syscall"

	phonepage "lotgauge/cmd/lotgauge/field"
	"lotgauge/cmd/lotgauge/table"
)

// phone writes the page for a phone.
func (opts *sheetOptions) phone() error {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	p, err := opts.fieldPage(ctx)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := phonepage.Build(&b, p); err != nil {
		return err
	}
	if err := opts.deliverTo(dashed(opts.Phone), b.Bytes()); err != nil || opts.Phone == "-" {
		return err
	}
	opts.note(opts.Phone + ": send it to the phone and open it in the browser there; lotgauge sheet --serve hands it over the network")
	return nil
}

// serve hands the page over until a phone has it.
func (opts *sheetOptions) serve() error {
	if opts.Address != "" {
		if _, _, err := net.SplitHostPort(opts.Address); err != nil {
			return usagef("--address %q: expected HOST:PORT, such as 192.168.1.5:8080 or :8080", opts.Address)
		}
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	p, err := opts.fieldPage(ctx)
	if err != nil {
		return err
	}
	handed, err := phonepage.Serve(ctx, phonepage.Handover{Page: p, Addr: opts.Address, Ready: opts.ready})
	switch {
	case err != nil:
		return err
	case !handed:
		return &refusal{what: "stopped before a phone had the page"}
	}
	opts.note("the phone has the page")
	return nil
}

// ready says where the page is to be had.
func (opts *sheetOptions) ready(urls []string) {
	opts.note("open this on the phone, once; Ctrl-C ends it:")
	for _, url := range urls {
		_ = opts.deliverTo("", []byte(url+"\n")) // it is served all the same
	}
	if opts.Address == "" {
		opts.note("only this machine can; --address :8080 lets in a phone on its network")
	}
}

// fieldPage is the page for a phone, with the families that are asked for.
func (opts *sheetOptions) fieldPage(ctx context.Context) (phonepage.Page, error) {
	library, folder, err := opts.library()
	if err != nil {
		return phonepage.Page{}, err
	}
	for _, id := range opts.Families { // before the engine, which takes a while
		if _, diags := library.Family(id); diags.HasErrors() {
			return phonepage.Page{}, diags.Err()
		}
	}
	if err := phonepage.CheckBuy(library, opts.Buy); err != nil {
		return phonepage.Page{}, err
	}
	engine, err := phonepage.FindEngine(ctx, opts.note)
	if err != nil {
		return phonepage.Page{}, unavailable(err)
	}
	if folder.Demonstration {
		opts.note(table.DemonstrationNote)
	}
	return phonepage.Page{
		Data: folder.FS, Name: folder.Name, Demonstration: folder.Demonstration,
		Families: opts.Families, Buy: opts.Buy, Made: opts.Now(), Engine: engine,
	}, nil
}
