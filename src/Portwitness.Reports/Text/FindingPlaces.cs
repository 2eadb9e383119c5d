using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>Where a finding was seen: its first place, and the further ones by what tells them from it.</summary>
internal static class FindingPlaces
{
    /// <summary>Further places that a text for people lists; the contract has all.</summary>
    public const int MaxListed = 20;

    /// <summary>"c1.capture.jsonl, port C1, in use C1, 0.1 s, message 5, object 2".</summary>
    public static string First(Finding finding)
    {
        List<string> parts = [];
        Add(parts, finding.File.Length > 0, finding.File);
        Add(parts, finding.Port.Length > 0, $"port {finding.Port}");
        Add(parts, finding.Arrangement.Count > 0, $"in use {string.Join(" + ", finding.Arrangement)}");
        Add(parts, finding.HasTimeUs, Amounts.Seconds(finding.TimeUs));
        Add(parts, finding.HasMessageIndex, $"message {Amounts.Number(finding.MessageIndex)}");
        Add(parts, finding.HasObjectPosition, $"object {Amounts.Number(finding.ObjectPosition)}");
        Add(parts, finding.HasLabelLine, $"{LabelOf(finding.Label)} line {Amounts.Number(finding.LabelLine)}");
        Add(parts, finding.HasOtherLabelLine, $"{LabelOf(finding.OtherLabel)} line {Amounts.Number(finding.OtherLabelLine)}");
        Add(parts, finding.Repeats > 0, Repeated(finding.Repeats));
        return string.Join(", ", parts);
    }

    /// <summary>"object 3 (bits 0x04000000 of 0x0404B12C); object 4 (...)", and how many more there are; empty without any.</summary>
    public static string Further(Finding finding, int most = MaxListed)
    {
        string listed = string.Join("; ", finding.FurtherPlaces.Take(most).Select(place => $"{One(finding, place)}{Seen(finding, place)}"));
        int left = finding.FurtherPlaces.Count - most;
        return left > 0 ? $"{listed}; and {Amounts.Count(left, "more place", "more places")}" : listed;
    }

    /// <summary>What tells a place from the first one: "message 9, object 2".</summary>
    public static string One(Finding first, FindingPlace place)
    {
        List<string> parts = [];
        bool isElsewhere = place.File != first.File;
        bool isOther = isElsewhere || place.MessageIndex != first.MessageIndex || place.TimeUs != first.TimeUs;
        Add(parts, isElsewhere, place.File);
        Add(parts, !place.Arrangement.SequenceEqual(first.Arrangement), $"in use {string.Join(" + ", place.Arrangement)}");
        Add(parts, isOther && place.HasTimeUs, Amounts.Seconds(place.TimeUs));
        Add(parts, isOther && place.HasMessageIndex, $"message {Amounts.Number(place.MessageIndex)}");
        Add(parts, place.HasObjectPosition, $"object {Amounts.Number(place.ObjectPosition)}");
        Add(parts, place.Repeats > 0, Repeated(place.Repeats));
        return parts.Count > 0 ? string.Join(", ", parts) : "here, too";
    }

    private static string LabelOf(string name) => name.Length == 0 || name == "label" ? "label" : $"label \"{name}\"";

    private static string Seen(Finding first, FindingPlace place) =>
        place.Observed != first.Observed ? $" ({place.Observed})" : place.Detail != first.Detail ? $" ({place.Detail})" : "";

    private static string Repeated(long times) => $"and {Amounts.Count(times, "more time", "more times")}";

    private static void Add(List<string> parts, bool isKnown, string part)
    {
        if (isKnown)
        {
            parts.Add(part);
        }
    }
}
