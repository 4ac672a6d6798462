package store

// Photo is a picture that somebody sent with what was done. The chat keeps it; File is
// the chat's own name for it.
type Photo struct {
	ID     int64
	Crew   int64
	Update int64  // row of the update that brought it
	About  int64  // chat message whose lines it goes with, 0 where none are to come
	Album  string // of photos that were sent together, "" for one alone
	File   string
	Lines  []int64 // the logbook's, by number; set by Photos alone
}

const photoColumns = `id, crew_id, update_row, about_id, album, file`

func scanPhoto(s scanner) (p Photo, err error) {
	err = s.Scan(&p.ID, &p.Crew, &p.Update, &p.About, &p.Album, &p.File)
	return p, err
}

// KeepPhoto keeps a photo with lines of the logbook. More may come: see PhotosJoin.
func (t *Tx) KeepPhoto(p Photo, lines ...int64) error {
	id, err := t.insert(`INSERT INTO photos (crew_id, update_row, about_id, album, file) VALUES (?, ?, ?, ?, ?)`, p.Crew, p.Update, p.About, p.Album, p.File)
	if err != nil {
		return err
	}
	for _, l := range lines {
		if _, err := t.exec(`INSERT OR IGNORE INTO photo_lines (photo_id, entry_id) VALUES (?, ?)`, id, l); err != nil {
			return err
		}
	}
	return nil
}

// PhotosJoin puts a new line of the logbook beside the photos of the chat message that
// it was logged from.
func (t *Tx) PhotosJoin(crew, message, line int64) error {
	if message == 0 {
		return nil
	}
	if any, err := t.anyPhoto(crew); err != nil || !any {
		return err
	}
	_, err := t.exec(`INSERT OR IGNORE INTO photo_lines (photo_id, entry_id) SELECT id, ? FROM photos WHERE crew_id = 0 + ? AND about_id = ?`, line, crew, message)
	return err
}

// anyPhoto reports whether a crew ever sent one with what was done; many never do.
func (t *Tx) anyPhoto(crew int64) (bool, error) {
	var n int
	return t.one(`SELECT 1 FROM photos WHERE crew_id = 0 + ? LIMIT 1`, []any{crew}, &n)
}

// PhotosFollow puts the photos of a line beside the one that was logged instead of it.
func (t *Tx) PhotosFollow(old, line int64) error {
	_, err := t.exec(`INSERT OR IGNORE INTO photo_lines (photo_id, entry_id) SELECT photo_id, ? FROM photo_lines WHERE entry_id = ?`, line, old)
	return err
}

// Album is the first photo that was kept of an album; found is false where none was.
func (t *Tx) Album(crew int64, album string) (p Photo, found bool, err error) {
	list, err := all(t, scanPhoto, `SELECT `+photoColumns+` FROM photos WHERE crew_id = 0 + ? AND album = ? AND album <> '' ORDER BY id LIMIT 1`, crew, album)
	if err != nil || len(list) == 0 {
		return p, false, err
	}
	p = list[0]
	p.Lines, err = t.photoLines(p.ID)
	return p, true, err
}

func (t *Tx) photoLines(photo int64) ([]int64, error) {
	return all(t, func(s scanner) (id int64, err error) {
		err = s.Scan(&id)
		return id, err
	}, `SELECT entry_id FROM photo_lines WHERE photo_id = ? ORDER BY entry_id`, photo)
}

// Photos are those of a crew that go with lines of the logbook, oldest first.
func (t *Tx) Photos(crew int64) ([]Photo, error) {
	list, err := all(t, scanPhoto, `SELECT `+photoColumns+` FROM photos WHERE crew_id = 0 + ? AND id IN (SELECT photo_id FROM photo_lines) ORDER BY id`, crew)
	for i := range list {
		if err == nil {
			list[i].Lines, err = t.photoLines(list[i].ID)
		}
	}
	return list, err
}

// forgetAbout is for a chat whose messages got other numbers.
const forgetAbout = `UPDATE photos SET about_id = 0 WHERE crew_id = 0 + ?`

// CountPhotos is how many photos are kept with a line of the logbook.
func (t *Tx) CountPhotos(line int64) (n int, err error) {
	_, err = t.one(`SELECT count(*) FROM photo_lines WHERE entry_id = ?`, []any{line}, &n)
	return n, err
}
