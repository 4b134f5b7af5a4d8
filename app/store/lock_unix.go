//go:build unix

package store

import (
	"errors"
	"os"
	"syscall"
)

// lock takes the lock file of a data folder. The kernel gives it back when the
// program ends, however it ends.
func lock(path string) (*os.File, error) {
	f, err := os.OpenFile(path, os.O_CREATE|os.O_RDWR, 0o600)
	if err != nil {
		return nil, &Error{Kind: ErrNotWritable, Path: path, Err: err}
	}
	for {
		err = syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
		if !errors.Is(err, syscall.EINTR) {
			break
		}
	}
	if err != nil {
		f.Close()
		if errors.Is(err, syscall.EWOULDBLOCK) {
			return nil, &Error{Kind: ErrLocked, Path: path, Err: err}
		}
		return nil, &Error{Kind: ErrNotWritable, Path: path, Err: err}
	}
	return f, nil
}
