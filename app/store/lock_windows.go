package store

import (
	"errors"
	"os"
	"syscall"
)

// errorSharingViolation is ERROR_SHARING_VIOLATION of the Windows API.
const errorSharingViolation syscall.Errno = 32

// lock takes the lock file of a data folder by opening it without sharing.
// Windows gives it back when the program ends, however it ends.
func lock(path string) (*os.File, error) {
	name, err := syscall.UTF16PtrFromString(path)
	if err != nil {
		return nil, &Error{Kind: ErrNotWritable, Path: path, Err: err}
	}
	h, err := syscall.CreateFile(name, syscall.GENERIC_READ|syscall.GENERIC_WRITE, 0, nil,
		syscall.OPEN_ALWAYS, syscall.FILE_ATTRIBUTE_NORMAL, 0)
	switch {
	case errors.Is(err, errorSharingViolation):
		return nil, &Error{Kind: ErrLocked, Path: path, Err: err}
	case err != nil:
		return nil, &Error{Kind: ErrNotWritable, Path: path, Err: err}
	}
	return os.NewFile(uintptr(h), path), nil
}
