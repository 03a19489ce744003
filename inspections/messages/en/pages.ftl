## The month's summary, on the screen, as PDF and by mail
pages-summary-title = { $month }: { $where }
pages-summary-sites = { $count ->
    [one] one site
   *[other] { $count } sites
}
pages-summary-nothing = Nothing was delivered in this month.
pages-summary-counted = { $deliveries ->
    [one] One delivery
   *[other] { $deliveries } deliveries
} with { $delivered ->
    [one] one carton
   *[other] { $delivered } cartons
}, of which { $refused } were refused. { $opened } were opened; { $defective } of those were defective.
pages-summary-more = { $supplier }: more defective cartons in the last twelve months than luck explains. { $found } of { $opened } opened ones were defective; with the others’ rates in the same goods at the same sites it would have been about { $expected }. By luck alone that comes about 1 time in { $one_in }.
pages-summary-fewer = { $supplier }: fewer defective cartons in the last twelve months than luck explains. { $found } of { $opened } opened ones were defective; with the others’ rates in the same goods at the same sites it would have been about { $expected }. By luck alone that comes about 1 time in { $one_in }.
pages-summary-shift = { $supplier }: changed about { $since }. Defective before: { $before } opened cartons; since then: { $after }.
pages-summary-run = { $supplier }: { $deliveries ->
    [one] every carton of the latest delivery was refused.
   *[other] every carton of the latest { $deliveries } deliveries was refused.
}
pages-summary-alike = No supplier stands apart from the others in the last twelve months by more than luck explains. That is no proof that they are alike.
pages-summary-of = { $part } of { $whole }
pages-summary-all = All together
pages-summary-supplier = Supplier
pages-summary-delivered = Cartons received
pages-summary-refused = Refused
pages-summary-defective = Opened cartons defective
pages-summary-claims = Claims sent
pages-summary-cost = Cost of a sound kilogram
pages-summary-note = The table and the first sentence are of the month. What is said of single suppliers is told from the { $months } months up to { $last }. Claims may still be sent about these goods.
pages-summary-mail-subject = { $installation }: { $title }
pages-summary-mail-foot = On the desk: { $address }. You get this mail because you asked for it there; the same page ends it.
pages-summary-mail-away = The server stopped while it sent this mail. It may or may not have gone out.
pages-summary-mail-broken = The mail server broke off. The mail may or may not have gone out.
pages-summary-mail-refused = The mail server did not take this mail, { $times } times.
