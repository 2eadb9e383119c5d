using System.Globalization;
using Google.Protobuf.Collections;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Comparing;

/// <summary>
/// A report taken apart into facts that another report may have, too. Times, messages and file names are of one recording, and no part
/// of what makes a fact the same.
/// </summary>
internal sealed class ReportFacts
{
    private readonly Dictionary<FactKey, string> _values = [];
    private readonly List<FactKey> _order = [];

    /// <summary>Takes a report apart.</summary>
    public ReportFacts(ProductReport report)
    {
        Add(new FactKey("verdict", "", "", "the product"), ProductText.Word(report.Verdict));
        foreach (Finding finding in report.Findings)
        {
            Add(KeyOf(finding, finding.Arrangement, finding.HasObjectPosition ? finding.ObjectPosition : 0), ValueOf(finding, finding.Observed));
            foreach (FindingPlace place in finding.FurtherPlaces)
            {
                Add(KeyOf(finding, place.Arrangement, place.HasObjectPosition ? place.ObjectPosition : 0), ValueOf(finding, place.Observed));
            }
        }

        foreach (PortReport port in report.Ports)
        {
            foreach (var pieces in port.Arrangements.GroupBy(static one => (one.File, PortsInUse.Key(one.InUse))))
            {
                AddOffers(port.Port, pieces.LastOrDefault(piece => report.Arrangements.Any(row => IsOf(row, piece))) ?? pieces.Last());
            }
        }

        foreach (Statement statement in report.Statements)
        {
            Add(new FactKey("statement", statement.Port, "", statement.Claim), ProductText.Word(statement.Verdict));
        }

        foreach (FurtherLabel further in report.FurtherLabels)
        {
            foreach (Statement statement in further.Statements)
            {
                Add(new FactKey("statement", statement.Port, "", $"{further.Name}: {statement.Claim}"), ProductText.Word(statement.Verdict));
            }
        }

        string[] lines = report.Label?.Text.ReplaceLineEndings("\n").TrimEnd().Split('\n') ?? [];
        for (int line = 0; line < lines.Length; line++)
        {
            Add(new FactKey("label", "", "", $"line {Amounts.Number(line + 1)}"), lines[line].Trim());
        }

        if (report.Sharing is { } sharing)
        {
            Add(new FactKey("sharing", "", "", "how power is shared"), sharing.Policy);
        }

        foreach ((FactKey key, string value) in OpenedFacts.Of(report))
        {
            Add(key, value);
        }

        Quantities = new ReportQuantities(report);
    }

    /// <summary>What was captured: ports with the ports in use beside them.</summary>
    public HashSet<(string Port, string InUse)> Captured { get; } = [];

    /// <summary>The facts in the order of the report.</summary>
    public IReadOnlyList<FactKey> Keys => _order;

    /// <summary>What was measured.</summary>
    public ReportQuantities Quantities { get; }

    /// <summary>What the report says of it; null when it says nothing.</summary>
    public string? this[FactKey key] => _values.GetValueOrDefault(key);

    /// <summary>
    /// Whether the report could say anything of it: a port under an arrangement that was not captured has no offers, a product that nobody opened
    /// no ledger.
    /// </summary>
    public bool Covers(FactKey key) => OpenedFacts.Has(key) ? _order.Exists(own => own.Subject == key.Subject)
        : !IsOfCaptures(key) || Captured.Any(one => one.Port == key.Port && (one.InUse == key.InUse || IsOfAny(key)));

    /// <summary>
    /// Whether the report says it of a port without captures of it: it rests on the label, on cells, parts or logs, and any other report could say
    /// it, too.
    /// </summary>
    public bool SaysWithoutCaptures(FactKey key) => _values.ContainsKey(key) && IsOfCaptures(key) && !Captured.Any(one => one.Port == key.Port);

    /// <summary>Whether captures of its port have to be there for it to be said.</summary>
    public static bool IsOfCaptures(FactKey key) => key.Subject is "offer" or "finding" && key.Port.Length > 0;

    /// <summary>Whether captures of the port under any arrangement do: a finding may name none.</summary>
    public static bool IsOfAny(FactKey key) => key.Subject == "finding" && key.InUse.Length == 0;

    // Of several lists under one arrangement of a capture that one counts which the label is compared with.
    private static bool IsOf(PortInArrangement row, ArrangementReport piece) => row.File == piece.File
        && row.MessageIndex == piece.Offered?.MessageIndex && row.InUse.Count == Math.Max(1, piece.InUse.Count);

    private void AddOffers(string port, ArrangementReport arrangement)
    {
        string inUse = PortsInUse.Key(arrangement.InUse);
        Captured.Add((port, inUse));
        foreach (PowerObject offered in arrangement.Offered?.Objects ?? [])
        {
            string[] row = PowerObjectRow.Of(offered);
            (string kind, string voltage, string current, string power, string flags) = (row[2], row[3], row[4], row[5], row[6]);
            bool isSprAvs = offered.KindCase == PowerObject.KindOneofCase.SprAvs;
            Add(
                new FactKey("offer", port, inUse, isSprAvs ? kind : $"{kind} {voltage}".Trim()),
                string.Join(", ", new[] { isSprAvs ? voltage : "", current, current.Length > 0 ? "" : power, flags }.Where(static part => part.Length > 0)));
        }
    }

    private static FactKey KeyOf(Finding finding, RepeatedField<string> arrangement, int position)
    {
        string place = finding.HasLabelLine ? $" ({$"label {finding.Label}".TrimEnd()} line {Amounts.Number(finding.LabelLine)})"
            : position > 0 ? $" (object {Amounts.Number(position)})" : "";
        return new FactKey("finding", finding.Port, PortsInUse.Key(arrangement), finding.Rule + place);
    }

    private static string ValueOf(Finding finding, string observed) =>
        TextStyle.Plain.Severity(finding.Severity) + (observed.Length > 0 ? $": {observed}" : "");

    // A second one of the same kind is told apart by a number.
    private void Add(FactKey key, string value)
    {
        FactKey one = key;
        for (int number = 2; !_values.TryAdd(one, value); number++)
        {
            one = key with { About = string.Create(CultureInfo.InvariantCulture, $"{key.About} #{number}") };
        }

        _order.Add(one);
    }
}
