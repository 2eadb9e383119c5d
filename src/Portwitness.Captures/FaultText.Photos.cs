namespace Portwitness.Captures;

/// <summary>Texts about offers that were recognised on a photo.</summary>
internal static partial class FaultText
{
    public const string PhotoUnchecked =
        "These offers were recognised on a photo, and nobody has compared them with it yet: nothing rests on them. Compare them; then write \"checked: true\" "
        + "beside \"photo:\" in a product file, or type them with --offers.";

    public static string PhotoNote(string what) => $"On the photo, {what}.";

    public static string PhotoProblem(string what) => $"{what}; its place was kept. Look at the photo, and type the offers with --offers or \"list:\".";
}
