package feed

import (
	"bytes"
	"fmt"
	"slices"
	"time"
)

// survey is one Run of a Folder and what it remembers between looks.
type survey struct {
	*Folder
	teller        // answers, and faults of the whole
	parts  teller // faults of single files, beside the answers

	// Owned by the goroutine in Run.
	files map[string]*leaf
	order []*leaf // those whose content is in body
	heard bool    // body is the content delivered last
	body  []byte
}

// leaf is one file of a folder.
type leaf struct {
	*glance
	listed   bool      // at the last look
	gone     time.Time // since when it has not been listed, or is no file; zero: all is well
	modified time.Time // of the content in body
}

func (f *Folder) survey(to Sink) *survey {
	t := teller{to: to, now: f.o.Now}
	return &survey{Folder: f, teller: t, parts: t, files: map[string]*leaf{}}
}

// outcome is what one look at all files found.
type outcome struct {
	order   []*leaf
	left    int64 // bytes that the rest may have
	changed bool  // a file's content is new
	waiting bool  // a file may be half written
	faults  []*failure
}

// look looks at all files once and tells the sink what there is to tell. It returns
// sightWait when one of them may be half written.
func (s *survey) look() sight {
	s.begin()
	s.parts.started = s.started
	names, all, err := s.names()
	if err != nil {
		s.fail(ReasonFile, err)
		return sightBad
	}
	o := &outcome{left: s.o.MaxBytes}
	for _, name := range s.withGone(names) {
		s.see(s.files[name], o)
	}
	if all > len(names) {
		err := fmt.Errorf("feed folder %s holds %d PGN files, and only the first %d are read; is it the right folder? If so, raise the limit", s.o.Path, all, s.o.MaxFiles)
		o.faults = append(o.faults, &failure{reason: ReasonTooLarge, err: err})
	}
	s.report(o)
	if o.waiting {
		return sightWait
	}
	return sightSame
}

// withGone adds to names those that have gone only now: a file that is written anew
// is often removed first. Those gone for longer are forgotten.
func (s *survey) withGone(names []string) []string {
	for _, f := range s.files {
		f.listed = false
	}
	for _, name := range names {
		if s.files[name] == nil {
			s.files[name] = &leaf{glance: newGlance(s.path(name), s.o.Every, 0, s.o.Check)}
		}
		s.files[name].listed = true
	}
	for name, f := range s.files {
		switch {
		case f.listed:
		case f.lost(s.started):
			names = append(names, name)
		default:
			delete(s.files, name)
		}
	}
	slices.SortFunc(names, natural)
	return names
}

// lost notes that the file is not there, and tells whether it may come back.
func (f *leaf) lost(now time.Time) bool {
	if f.gone.IsZero() {
		f.gone = now
	}
	return now.Sub(f.gone) < grace
}

// see looks at one file. One that cannot be read keeps the content it had; one that
// is too large does not.
func (s *survey) see(f *leaf, o *outcome) {
	f.limit = max(0, o.left)
	found, fault := f.glance.see(s.started)
	switch {
	case f.met == nil && f.lost(s.started): // on its way out or in
		o.waiting = true
	case fault != nil && fault.reason == ReasonNotPGN && f.blank && !f.heard:
		// A game that has not begun.
	case fault != nil && fault.reason == ReasonTooLarge:
		f.heard, f.body, f.done = false, nil, false
		o.faults = append(o.faults, s.noRoom(f))
	case fault != nil:
		o.faults = append(o.faults, fault)
	case found == sightWait:
		o.waiting = true
	case found == sightNew:
		o.changed = true
	}
	if f.listed && f.met != nil {
		f.gone = time.Time{}
	}
	if f.done {
		f.modified = f.met.ModTime()
	}
	s.add(f, o)
}

// add puts the file's content in the row if there is room.
func (s *survey) add(f *leaf, o *outcome) {
	size := int64(len(f.body)) + 1 // the newline
	switch {
	case !f.heard:
	case size > o.left+1: // none stands after the last
		o.faults = append(o.faults, s.noRoom(f))
	default:
		o.left -= size
		o.order = append(o.order, f)
	}
}

func (s *survey) noRoom(f *leaf) *failure {
	err := fmt.Errorf("feed file %s is left out: the files of its folder are larger than %d bytes together; is it the right folder? If so, raise the size limit", f.path, s.o.MaxBytes)
	return &failure{reason: ReasonTooLarge, err: err}
}

// report tells the sink of one look.
func (s *survey) report(o *outcome) {
	if len(o.order) == 0 {
		s.parts.forget()
		s.reportNothing(o)
		return
	}
	if o.changed || !slices.Equal(o.order, s.order) {
		s.order = o.order
		s.deliver()
	} else {
		s.same(s.modified())
	}
	if len(o.faults) == 0 {
		s.parts.forget()
		return
	}
	f := o.faults[0]
	s.parts.failed(Fault{Reason: f.reason, Err: f.among(o.faults), Partial: true})
}

// reportNothing tells why no file can be read.
func (s *survey) reportNothing(o *outcome) {
	switch {
	case len(o.faults) > 0:
		s.fail(o.faults[0].reason, o.faults[0].among(o.faults))
	case !o.waiting:
		s.fail(ReasonFile, fmt.Errorf("feed folder %s holds no game in a file whose name ends in .pgn; is the path right, and has the arena's program written one yet?", s.o.Path))
	}
}

// among is f's error with the number of others beside it.
func (f *failure) among(all []*failure) error {
	if len(all) == 1 {
		return f.err
	}
	return fmt.Errorf("%w (and %d more like that)", f.err, len(all)-1)
}

// deliver joins what there is and delivers it if it is new.
func (s *survey) deliver() {
	bodies := make([][]byte, len(s.order))
	for i, f := range s.order {
		bodies[i] = f.body
	}
	body := bytes.Join(bodies, []byte("\n"))
	if s.heard && bytes.Equal(body, s.body) {
		s.same(s.modified())
		return
	}
	s.heard, s.body = true, body
	s.answer(Answer{New: true, Body: body, Modified: s.modified()})
}

// modified is when the youngest file was written.
func (s *survey) modified() time.Time {
	var youngest time.Time
	for _, f := range s.order {
		if f.modified.After(youngest) {
			youngest = f.modified
		}
	}
	return youngest
}
