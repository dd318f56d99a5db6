package lsp

import (
	"bytes"
	"context"
	"errors"
	"maps"
	"slices"
	"strconv"
	"sync"
	"time"

	"go.lsp.dev/jsonrpc2"
	"go.lsp.dev/protocol"

	"hame/lsp/core"
)

// publisher is the one worker that checks what the editor holds and publishes
// what was found.
type publisher struct {
	server *Server
	wake   chan struct{}
	ctx    context.Context
	cancel context.CancelFunc
	done   chan struct{}

	mu     sync.Mutex
	recent string // the text that was edited last: it is checked first

	// Only the worker touches these.
	published map[string]publication
	printer   printer
	took      time.Duration
	overtaken bool
}

// publication is what was published of a file last.
type publication struct {
	text string
	list []byte
}

func newPublisher(s *Server) *publisher {
	p := &publisher{server: s, wake: make(chan struct{}, 1), done: make(chan struct{}), published: map[string]publication{}}
	p.ctx, p.cancel = context.WithCancel(context.Background())
	go p.loop()
	return p
}

// poke has everything looked at soon. It never waits.
func (p *publisher) poke(path string) {
	p.mu.Lock()
	p.recent = path
	p.mu.Unlock()
	select {
	case p.wake <- struct{}{}:
	default: // it is about to look anyway
	}
}

func (p *publisher) stop() {
	p.cancel()
	<-p.done
}

func (p *publisher) loop() {
	defer close(p.done)
	for {
		makeRoom()
		select {
		case <-p.ctx.Done():
			return
		case <-p.wake:
		}
		p.settle()
		p.round()
	}
}

// A check starts with the first key. Only where one was overtaken by the next
// key, and checking takes longer than quick, a pause in typing is waited for: a
// part of that time, and never so long that anybody would see it.
const (
	quick     = 10 * time.Millisecond
	longPause = 30 * time.Millisecond
	mostKeys  = 8 // that are waited behind
)

// settle waits for a pause in typing, but not for ever where nobody pauses.
func (p *publisher) settle() {
	if !p.overtaken || p.took < quick {
		return
	}
	pause := min(p.took/8, longPause)
	timer := time.NewTimer(pause)
	defer timer.Stop()
	for range mostKeys {
		select {
		case <-p.ctx.Done():
			return
		case <-p.wake:
			timer.Reset(pause)
		case <-timer.C:
			return
		}
	}
}

// round checks what is open and publishes what has changed. An edit that makes
// it worthless has woken the next one.
func (p *publisher) round() {
	st := p.server.now()
	if st.client.pulls {
		return // the client asks when it wants to know
	}
	var passes []*core.Pass
	took := time.Duration(0)
	order := p.order(st.view)
	for i, path := range order {
		pass, err := p.server.checker.Watch(p.ctx, st.view, path, func(soon *core.Pass) {
			p.soon(&st, append(slices.Clone(passes), soon), order[i+1:])
		})
		p.overtaken = errors.Is(err, core.ErrStale)
		switch {
		case p.overtaken, p.ctx.Err() != nil:
			return
		case err != nil:
			p.server.log(protocol.MessageTypeError, err.Error())
			continue
		}
		took = max(took, pass.Took)
		passes = append(passes, pass)
	}
	p.took = took // of a round that came to its end: it tells how the next will be
	p.send(&st, p.printer.pages(&st, passes))
}

// soon publishes what is known before a check ends, beside what was found last of
// the texts that are still to be checked.
func (p *publisher) soon(st *state, passes []*core.Pass, waiting []string) {
	for _, path := range waiting {
		if last := p.server.checker.Last(path); last != nil {
			passes = append(passes, last)
		}
	}
	p.send(st, p.printer.pages(st, passes))
}

// order is what is open, the text that was edited last first.
func (p *publisher) order(v *core.View) []string {
	p.mu.Lock()
	recent := p.recent
	p.mu.Unlock()
	list := v.Opened()
	slices.SortStableFunc(list, func(a, b string) int {
		switch {
		case a == b:
			return 0
		case a == recent:
			return -1
		case b == recent:
			return 1
		}
		return 0
	})
	return list
}

// send publishes the files that changed, and takes back what was published of
// files that are no longer looked at.
func (p *publisher) send(st *state, all map[string]*page) {
	for _, path := range slices.Sorted(maps.Keys(p.published)) {
		if all[path] == nil {
			p.put(st, path, nil, nil)
			delete(p.published, path)
			st.uris.forget(path)
		}
	}
	for _, path := range slices.Sorted(maps.Keys(all)) {
		f := all[path]
		if open := st.view.Open(path); open != nil || len(f.body) > 0 || p.published[path].list != nil {
			p.put(st, path, open, f)
		}
	}
}

func (p *publisher) put(st *state, path string, open *core.File, f *page) {
	now := publication{}
	raw := append([]byte(`{"uri":`), p.printer.quoted(string(st.uris.of(path)))...)
	if open != nil {
		now.text = open.Text
		if st.client.versions {
			raw = strconv.AppendInt(append(raw, `,"version":`...), int64(open.Version), 10)
		}
	}
	raw = append(raw, `,"diagnostics":[`...)
	if f != nil {
		raw = append(raw, f.body...)
	}
	now.list = append(raw, "]}"...)
	if was, ok := p.published[path]; ok && was.text == now.text && bytes.Equal(was.list, now.list) {
		return
	}
	p.published[path] = now
	p.server.conn.send(jsonrpc2.NewNotification(protocol.MethodTextDocumentPublishDiagnostics, now.list))
}
