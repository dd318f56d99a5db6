package lsp

import (
	"io"
	"sync"

	"hame/lsp/wire"
)

// outbox sends messages in the order in which they were put into it. Putting
// never waits for a client that does not read, so that reading never stands
// still because of writing.
type outbox struct {
	mu     sync.Mutex
	filled sync.Cond
	queue  [][]byte
	bytes  int
	closed bool
	broken bool
	done   chan struct{}
}

// mostUnread is how many bytes may wait for a client before it is given up.
const mostUnread = 256 << 20

func newOutbox(w io.Writer) *outbox {
	o := &outbox{done: make(chan struct{})}
	o.filled.L = &o.mu
	go o.drain(wire.NewWriter(w))
	return o
}

func (o *outbox) put(body []byte) {
	o.mu.Lock()
	defer o.mu.Unlock()
	if o.closed || o.broken {
		return
	}
	if o.bytes += len(body); o.bytes > mostUnread {
		o.broken, o.queue = true, nil
	} else {
		o.queue = append(o.queue, body)
	}
	o.filled.Signal()
}

// drain writes until the outbox is closed and empty, or nobody reads any more.
func (o *outbox) drain(w *wire.Writer) {
	defer close(o.done)
	for {
		body, more := o.next()
		if !more {
			return
		}
		if w.Write(body) != nil {
			o.mu.Lock()
			o.broken, o.queue = true, nil
			o.mu.Unlock()
			return
		}
	}
}

func (o *outbox) next() ([]byte, bool) {
	o.mu.Lock()
	defer o.mu.Unlock()
	for len(o.queue) == 0 && !o.closed && !o.broken {
		o.filled.Wait()
	}
	if len(o.queue) == 0 || o.broken {
		return nil, false
	}
	body := o.queue[0]
	o.queue[0] = nil
	o.queue = o.queue[1:]
	o.bytes -= len(body)
	return body, true
}

// close waits until all is written.
func (o *outbox) close() {
	o.mu.Lock()
	o.closed = true
	o.filled.Broadcast()
	o.mu.Unlock()
	<-o.done
}
