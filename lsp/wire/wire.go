// Package wire reads and writes the frames of the Language Server Protocol's
// base protocol: a header with the length of what follows, then that many
// bytes. What is malformed is said and passed over; reading goes on.
package wire

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"strconv"
	"sync"
)

// MaxBody is the most bytes that one message may have. Longer ones are passed
// over without being kept.
const MaxBody = 64 << 20

// maxHeader is the most bytes in which a header line must end.
const maxHeader = 64 << 10

// absurd is the length from which a header is taken for garbage.
const absurd = 1 << 40

// Malformed says why something that was read is no message. Reading goes on
// behind it.
type Malformed struct{ Why string }

func (m *Malformed) Error() string { return m.Why }

// Reader reads frames, one after another.
type Reader struct{ in *bufio.Reader }

// NewReader reads frames from a stream of bytes.
func NewReader(r io.Reader) *Reader { return &Reader{in: bufio.NewReaderSize(r, maxHeader)} }

// Next is the body of the next frame. The error is io.EOF at the end,
// *Malformed where something was passed over, else what the stream said.
func (r *Reader) Next() ([]byte, error) {
	length, err := r.header()
	if err != nil {
		return nil, err
	}
	if length > MaxBody {
		if _, err := io.CopyN(io.Discard, r.in, length); err != nil {
			return nil, unexpected(err)
		}
		return nil, &Malformed{fmt.Sprintf("a message of %d bytes is too long: at most %d", length, MaxBody)}
	}
	// The buffer grows with what really comes, not with what is announced.
	var body bytes.Buffer
	if _, err := io.CopyN(&body, r.in, length); err != nil {
		return nil, unexpected(err)
	}
	return body.Bytes(), nil
}

func unexpected(err error) error {
	if err == io.EOF {
		return io.ErrUnexpectedEOF
	}
	return err
}

// header reads up to the empty line and answers with the length that was
// announced.
func (r *Reader) header() (int64, error) {
	length, any := int64(-1), false
	for {
		line, err := r.line()
		switch {
		case err == io.EOF && !any && len(line) == 0:
			return 0, io.EOF
		case err != nil:
			return 0, unexpected(err)
		}
		line = bytes.TrimRight(line, "\r\n")
		if len(line) == 0 {
			if length >= 0 {
				return length, nil
			}
			if any {
				return 0, &Malformed{"a header without a Content-Length"}
			}
			continue // an empty line between messages harms nobody
		}
		any = true
		if n, ok := contentLength(line); ok {
			length = n
		}
	}
}

// line is the next line, its end included; of a longer one only the last part
// that fits, which is where a header glued to garbage stands.
func (r *Reader) line() ([]byte, error) {
	line, err := r.in.ReadSlice('\n')
	for err == bufio.ErrBufferFull {
		line, err = r.in.ReadSlice('\n')
	}
	return line, err
}

var lengthName = []byte("content-length:")

// contentLength finds the length in a header line. What stands before it, the
// rest of a body that was longer than announced say, is passed over.
func contentLength(line []byte) (int64, bool) {
	at := bytes.LastIndex(bytes.ToLower(line), lengthName)
	if at < 0 {
		return 0, false
	}
	n, err := strconv.ParseInt(string(bytes.TrimSpace(line[at+len(lengthName):])), 10, 64)
	return n, err == nil && n >= 0 && n < absurd
}

// Writer writes frames. It may be used from several goroutines.
type Writer struct {
	mu  sync.Mutex
	out io.Writer
	buf []byte
}

// NewWriter writes frames to a stream of bytes.
func NewWriter(w io.Writer) *Writer { return &Writer{out: w} }

// keptBuffer is the largest buffer that is kept for the next message.
const keptBuffer = 1 << 20

// Write writes one frame in one piece.
func (w *Writer) Write(body []byte) error {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.buf = append(w.buf[:0], "Content-Length: "...)
	w.buf = strconv.AppendInt(w.buf, int64(len(body)), 10)
	w.buf = append(append(w.buf, "\r\n\r\n"...), body...)
	_, err := w.out.Write(w.buf)
	if cap(w.buf) > keptBuffer {
		w.buf = nil
	}
	return err
}
