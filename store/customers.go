package store

// Customer is somebody who gets queens or cells. The logbook knows the number alone.
type Customer struct {
	Number    int
	Name      string // what stands for it where it was forgotten
	Forgotten bool
}

func scanCustomer(s scanner) (c Customer, err error) {
	err = s.Scan(&c.Number, &c.Name, &c.Forgotten)
	return c, err
}

// Customers are all of a crew by number, those that were forgotten among them.
func (t *Tx) Customers(crew int64) ([]Customer, error) {
	return all(t, scanCustomer, `SELECT number, name, forgotten FROM customers WHERE crew_id = 0 + ? ORDER BY number`, crew)
}

// AddCustomer gives a number its name. Numbers are not used again: see NextCustomer.
func (t *Tx) AddCustomer(crew int64, number int, name string) error {
	_, err := t.exec(`INSERT INTO customers (crew_id, number, name) VALUES (?, ?, ?)`, crew, number, name)
	return err
}

// NextCustomer is the number of the next one that comes.
func (t *Tx) NextCustomer(crew int64) (n int, err error) {
	_, err = t.one(`SELECT coalesce(max(number), 0) + 1 FROM customers WHERE crew_id = 0 + ?`, []any{crew}, &n)
	return n, err
}

// ForgetCustomer drops a customer's name for the word called: in the table, in what was said
// of them, and in the words of each line that says it. Lines keep their counts and their
// number, and the chain holds.
func (t *Tx) ForgetCustomer(crew int64, c Customer, called string) error {
	t.scrub = true
	own := spell(c.Name)
	for _, do := range []func() error{
		func() error { return t.dropWords(crew, 0, own) },
		func() error { return t.rename(crew, own, called) },
		func() error { return t.dropAside(own) },
	} {
		if err := do(); err != nil {
			return err
		}
	}
	_, err := t.exec(`UPDATE customers SET name = ?, forgotten = 1 WHERE crew_id = 0 + ? AND number = ?`, called, crew, c.Number)
	return err
}
