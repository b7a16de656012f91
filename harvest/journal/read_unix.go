//go:build unix

package journal

import "syscall"

// readOrdinary reads a file, at most so many bytes of it, by as few calls of the
// system as can be: a journal has a hundred thousand. ok is false for a link, for
// what is no ordinary file (which is not waited for) and after an error: who cares
// has to ask again in the usual way.
func readOrdinary(place string, most int64) (data []byte, ok bool) {
	file, err := again(func() (int, error) {
		return syscall.Open(place, syscall.O_RDONLY|syscall.O_NOFOLLOW|syscall.O_NONBLOCK|syscall.O_CLOEXEC, 0)
	})
	if err != nil {
		return nil, false
	}
	defer syscall.Close(file)
	var info syscall.Stat_t
	if err := syscall.Fstat(file, &info); err != nil || info.Mode&syscall.S_IFMT != syscall.S_IFREG {
		return nil, false
	}
	data = make([]byte, min(info.Size, most))
	for done := 0; done < len(data); {
		n, err := again(func() (int, error) { return syscall.Read(file, data[done:]) })
		switch {
		case err != nil:
			return nil, false
		case n == 0: // it has become shorter
			return data[:done], true
		}
		done += n
	}
	return data, true
}

// again makes a call of the system until no signal interrupts it.
func again(call func() (int, error)) (n int, err error) {
	for {
		if n, err = call(); err != syscall.EINTR {
			return n, err
		}
	}
}
