package money

// minorUnit is the number of decimals of a currency in ISO 4217; ok is false
// for one that is not known.
//
// These are the active codes as listed in the public data set "currency codes",
// https://github.com/datasets/currency-codes (state of 1 February 2026), without
// those that have no minor unit, and the withdrawn ones that the European
// Central Bank's history has a column for. The data set gives no minor unit for
// the latter: two is from memory.
//
// The tables of CLDR are not used: they depart from ISO 4217 on purpose, with
// no decimals for IQD, LBP and RSD, say.
func minorUnit(c Currency) (digits int32, ok bool) {
	switch c {
	case "AED", "AFN", "ALL", "AMD", "AOA", "ARS", "AUD", "AWG", "AZN", "BAM", "BBD", "BDT", "BMD",
		"BND", "BOB", "BOV", "BRL", "BSD", "BTN", "BWP", "BYN", "BZD", "CAD", "CDF", "CHE", "CHF",
		"CHW", "CNY", "COP", "COU", "CRC", "CUP", "CVE", "CZK", "DKK", "DOP", "DZD", "EGP", "ERN",
		"ETB", "EUR", "FJD", "FKP", "GBP", "GEL", "GHS", "GIP", "GMD", "GTQ", "GYD", "HKD", "HNL",
		"HTG", "HUF", "IDR", "ILS", "INR", "IRR", "JMD", "KES", "KGS", "KHR", "KPW", "KYD", "KZT",
		"LAK", "LBP", "LKR", "LRD", "LSL", "MAD", "MDL", "MGA", "MKD", "MMK", "MNT", "MOP", "MRU",
		"MUR", "MVR", "MWK", "MXN", "MXV", "MYR", "MZN", "NAD", "NGN", "NIO", "NOK", "NPR", "NZD",
		"PAB", "PEN", "PGK", "PHP", "PKR", "PLN", "QAR", "RON", "RSD", "RUB", "SAR", "SBD", "SCR",
		"SDG", "SEK", "SGD", "SHP", "SLE", "SOS", "SRD", "SSP", "STN", "SVC", "SYP", "SZL", "THB",
		"TJS", "TMT", "TOP", "TRY", "TTD", "TWD", "TZS", "UAH", "USD", "USN", "UYU", "UZS", "VED",
		"VES", "WST", "XAD", "XCD", "XCG", "YER", "ZAR", "ZMW", "ZWG":
		return 2, true
	case "BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "UYI", "VND",
		"VUV", "XAF", "XOF", "XPF":
		return 0, true
	case "BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND":
		return 3, true
	case "CLF", "UYW":
		return 4, true
	case "BGN", "CYP", "EEK", "HRK", "LTL", "LVL", "MTL", "ROL", "SIT", "SKK", "TRL":
		return 2, true
	}
	return 0, false
}
