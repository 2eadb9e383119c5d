namespace Portwitness.Analysis.Comparison;

/// <summary>Protocol words of a label that mean USB PD; every other token means something that a PD capture does not show.</summary>
internal static class Protocols
{
    private static readonly string[] PowerDelivery = ["PD", "USB PD", "USB-PD", "PPS", "AVS", "SPR", "EPR", "SPR AVS", "EPR AVS"];

    /// <summary>No token at all is taken for USB PD.</summary>
    public static bool IsPowerDelivery(string? token)
    {
        if (string.IsNullOrWhiteSpace(token))
        {
            return true;
        }

        // "PD3.0", "PD 3.1": the revision does not matter here.
        string word = token.Trim().TrimEnd('0', '1', '2', '3', '.', ' ');
        return PowerDelivery.Contains(word, StringComparer.OrdinalIgnoreCase);
    }
}
