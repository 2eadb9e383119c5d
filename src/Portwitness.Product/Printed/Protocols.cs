namespace Portwitness.Product.Printed;

/// <summary>Protocol words of a label that mean USB PD; every other token means something that a PD capture does not show.</summary>
public static class Protocols
{
    private static readonly string[] Lists = ["PD", "USB PD", "USB-PD", "SPR", "EPR"];

    private static readonly string[] Ranges = ["PPS", "AVS", "SPR AVS", "EPR AVS"];

    /// <summary>No token at all is taken for USB PD.</summary>
    public static bool IsPowerDelivery(string? token)
    {
        if (string.IsNullOrWhiteSpace(token))
        {
            return true;
        }

        string word = WithoutRevision(token);
        return Lists.Contains(word, StringComparer.OrdinalIgnoreCase) || Ranges.Contains(word, StringComparer.OrdinalIgnoreCase);
    }

    /// <summary>Whether a token names USB PD, so that what it stands before is PD's list; "PPS" and "AVS" name ranges only.</summary>
    public static bool NamesList(string? token) =>
        !string.IsNullOrWhiteSpace(token) && Lists.Contains(WithoutRevision(token), StringComparer.OrdinalIgnoreCase);

    // "PD3.0", "PD 3.1": the revision does not matter here.
    private static string WithoutRevision(string token) => token.Trim().TrimEnd('0', '1', '2', '3', '.', ' ');
}
