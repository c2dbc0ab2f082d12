package main

import (
	"context"
	"io"
	"unicode"
	"unicode/utf8"

	"golang.org/x/term"
)

// What ends or changes a line, beside interruptKey, endKey and escape.
const (
	enterKey     = "\r"
	newlineKey   = "\n"
	deleteKey    = "\x7f" // what the backspace key sends, mostly
	backspaceKey = "\b"
	clearKey     = "\x15" // Ctrl-U
)

// line is what somebody types before Enter, or Escape alone for a line that is
// left. The terminal's own editing would take Escape for a character.
func (k *keyboard) line(ctx context.Context, prompt string) (string, error) {
	fd := int(k.file.Fd())
	was, err := term.MakeRaw(fd)
	if err != nil {
		return k.reader.read(ctx, true) // it hands over lines, then
	}
	defer term.Restore(fd, was)
	text, err := k.edit(ctx, prompt)
	if _, werr := io.WriteString(k.out, "\r\n"); werr != nil {
		return "", unwritten(werr)
	}
	return text, err
}

// edit is the line, as it grows and shrinks.
func (k *keyboard) edit(ctx context.Context, prompt string) (string, error) {
	typed := ""
	for {
		key, err := k.reader.read(ctx, false)
		if err != nil {
			return "", err
		}
		shown := key
		switch key {
		case enterKey, newlineKey:
			return typed, nil
		case string(escape):
			return key, nil
		case interruptKey:
			return "", errInterrupted
		case endKey:
			if typed == "" {
				return "", io.EOF
			}
			continue
		case deleteKey, backspaceKey, clearKey:
			typed = shorter(typed, key == clearKey)
			shown = "\r\x1b[K" + prompt + typed
		default:
			if r, _ := utf8.DecodeRuneInString(key); !unicode.IsPrint(r) || len(typed) >= mostLine {
				continue
			}
			typed += key
		}
		if _, err := io.WriteString(k.out, shown); err != nil {
			return "", unwritten(err)
		}
	}
}

// shorter is a line without its last character, or without any.
func shorter(typed string, all bool) string {
	_, size := utf8.DecodeLastRuneInString(typed)
	if all {
		size = len(typed)
	}
	return typed[:len(typed)-size]
}
