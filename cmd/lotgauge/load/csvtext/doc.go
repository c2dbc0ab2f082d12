// Package csvtext changes the text of prices.csv and rates.csv, and writes and
// reads the form of the former that spreadsheets may open. It opens no files:
// it makes new text of old text, for package load to put in its place.
//
// The files are the user's, written by hand or by a spreadsheet. What stands in
// them stays as it is, byte for byte: line ends, the order of columns, columns
// nobody here knows, remarks, quotes. What is new is written in their manner.
package csvtext
