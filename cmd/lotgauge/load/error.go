package load

import (
	"errors"
	"io/fs"
	"os"
	"syscall"
)

// An Error is a file or folder that cannot be used. Error names the path and
// what is the matter; Hint says what to try and may be empty. Mistaken is true
// where the user named the wrong thing (nothing there, a folder where a file is
// wanted), false where the system refused (no permission, a full disk).
type Error struct {
	Path     string
	What     string
	Hint     string
	Mistaken bool
	Err      error // the cause, may be nil
}

func (e *Error) Error() string {
	if e.Path == "" {
		return e.What
	}
	return e.Path + ": " + e.What
}

// Unwrap returns the cause.
func (e *Error) Unwrap() error { return e.Err }

// refused turns an error of the system into an Error. The path is the one the
// user knows, not the one in err.
func refused(path string, err error) *Error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return &Error{Path: path, What: "no such file or folder", Mistaken: true, Err: err}
	case errors.Is(err, syscall.ENOTDIR):
		return &Error{Path: path, What: "a file stands in the place of a folder", Mistaken: true, Err: err}
	case errors.Is(err, fs.ErrPermission):
		return &Error{Path: path, What: "permission denied", Err: err,
			Hint: "check who owns it and who may read and write it"}
	}
	return &Error{Path: path, What: cause(err).Error(), Err: err}
}

// cause strips the operation and the path that package os puts around what the
// system said.
func cause(err error) error {
	if e, ok := errors.AsType[*fs.PathError](err); ok {
		return e.Err
	}
	if e, ok := errors.AsType[*os.LinkError](err); ok {
		return e.Err
	}
	if e, ok := errors.AsType[*os.SyscallError](err); ok {
		return e.Err
	}
	return err
}

// unchanged says why a file could not be changed, and that it was not.
func unchanged(path string, err error) error {
	known, ok := errors.AsType[*Error](err)
	if !ok {
		known = refused(Short(path), err)
	}
	e := *known
	const still = "nothing has been changed"
	switch {
	case inUse(err):
		e.What = "is open in another program, which keeps others from writing it"
		e.Hint = "close it there and try again; " + still
	case errors.Is(err, syscall.ENOSPC):
		e.Hint = "make room on the disk and try again; " + still
	case e.Hint == "":
		e.Hint = still
	default:
		e.Hint += "; " + still
	}
	return &e
}

// unsure says that a file has its new text, and may lose it in a power cut.
func unsure(path string, err error) error {
	e := refused(Short(path), err)
	e.What = "has been changed, but the system does not say that it is on the disk: " + e.What
	e.Hint = "look whether the change is there before you make it again"
	e.Mistaken = false
	return e
}
