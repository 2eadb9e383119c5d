using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>How a label's text came off a photo.</summary>
public static class PhotoWords
{
    private const int MaxListed = 10;

    /// <summary>How many words were recognised, which are doubtful, and whether anybody has looked; empty for a text that was typed.</summary>
    public static string Of(Label? label)
    {
        if (label?.Photo is not { } photo)
        {
            return "";
        }

        RecognisedWord[] doubtful = [.. photo.Words.Where(static word => word.Doubtful)];
        string listed = string.Join(", ", doubtful.Take(MaxListed).Select(static word => string.Create(
            CultureInfo.InvariantCulture, $"line {word.Line} \"{VisibleText.Of(word.Text)}\" ({word.Percent} %)")));
        string rest = doubtful.Length > MaxListed ? string.Create(CultureInfo.InvariantCulture, $" and {doubtful.Length - MaxListed} more") : "";
        return string.Create(CultureInfo.InvariantCulture, $"{photo.Words.Count} words were recognised on a photo; ")
            + (doubtful.Length == 0 ? "none is doubtful." : $"doubtful are {listed}{rest}.")
            + (photo.Checked ? " A person has compared them." : " Nobody has compared them with it yet, so that nothing accuses by them.");
    }
}
