namespace Portwitness.Text;

/// <summary>Finds the known name that somebody most likely meant by a mistyped one.</summary>
public static class NearestName
{
    private const int MaxCharacters = 40;
    private const int MaxShownCharacters = 60;

    /// <summary>The nearest known name; null when none is near.</summary>
    /// <remarks>
    /// Near is up to a third of the letters, three at most, each added, left out, changed or swapped with the next one (the optimal string
    /// alignment distance). Upper and lower case, hyphens and underscores are alike.
    /// </remarks>
    /// <param name="name">The name as written.</param>
    /// <param name="known">The names that exist.</param>
    public static string? Of(string name, IEnumerable<string> known)
    {
        ArgumentNullException.ThrowIfNull(name);
        if (name.Length is 0 or > MaxCharacters)
        {
            return null;
        }

        string folded = Fold(name);
        (string? nearest, int fewest) = (null, Math.Min(name.Length - 1, Math.Clamp(name.Length / 3, 1, 3)) + 1);
        foreach (string candidate in known)
        {
            if (Math.Abs(candidate.Length - name.Length) < fewest && Distance(folded, Fold(candidate)) is var distance && distance < fewest)
            {
                (nearest, fewest) = (candidate, distance);
            }
        }

        return nearest;
    }

    /// <summary>"lable" is no member of X; did you mean "label"? Known: …</summary>
    /// <param name="name">The name as written.</param>
    /// <param name="owner">What has the members, with its article, for example "a product file".</param>
    /// <param name="known">Its members.</param>
    public static string UnknownMember(string name, string owner, IReadOnlyList<string> known)
    {
        ArgumentNullException.ThrowIfNull(name);
        string shown = name.Length > MaxShownCharacters ? name[..MaxShownCharacters] + "..." : name;
        string meant = Of(name, known) is { } nearest ? $" Did you mean \"{nearest}\"?" : "";
        return $"\"{shown}\" is no member of {owner}.{meant} Known members: {string.Join(", ", known)}";
    }

    private static string Fold(string name) => name.Replace('-', '_').ToLowerInvariant();

    private static int Distance(string left, string right)
    {
        int[,] distance = new int[left.Length + 1, right.Length + 1];
        for (int i = 0; i <= left.Length; i++)
        {
            distance[i, 0] = i;
        }

        for (int j = 0; j <= right.Length; j++)
        {
            distance[0, j] = j;
        }

        for (int i = 1; i <= left.Length; i++)
        {
            for (int j = 1; j <= right.Length; j++)
            {
                int changed = distance[i - 1, j - 1] + (left[i - 1] == right[j - 1] ? 0 : 1);
                int least = Math.Min(changed, Math.Min(distance[i - 1, j], distance[i, j - 1]) + 1);
                bool isSwapped = i > 1 && j > 1 && left[i - 1] == right[j - 2] && left[i - 2] == right[j - 1];
                distance[i, j] = isSwapped ? Math.Min(least, distance[i - 2, j - 2] + 1) : least;
            }
        }

        return distance[left.Length, right.Length];
    }
}
