namespace Portwitness.Captures.Formats;

/// <summary>One file of an archive or a folder.</summary>
/// <param name="Name">Its path there.</param>
/// <param name="Length">In bytes.</param>
/// <param name="Open">Opens it for one reading.</param>
internal sealed record ArchivedFile(string Name, long Length, Func<Stream> Open)
{
    private static readonly char[] Digits = ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9'];

    /// <summary>Whether exports have such a file beside what was recorded: hidden, or what a system adds to an archive.</summary>
    public bool IsAside => Name.Split('/').Any(static part => part.StartsWith('.') || part == "__MACOSX");

    /// <summary>The name without its folder and ending.</summary>
    public string Stem => Path.GetFileNameWithoutExtension(Name);

    /// <summary>
    /// What the parts of one recording have in common: name and ending without the number, as of "scope_001.csv" or "logic-1-2". Null for a
    /// file without such a number; "c1.csv" is that of a port.
    /// </summary>
    public string? Series
    {
        get
        {
            string ending = Path.GetExtension(Name);
            ending = ending.Length > 1 && ending.AsSpan(1).ContainsAnyExceptInRange('0', '9') ? ending : "";
            string rest = Name[..^ending.Length].TrimEnd(')');
            string name = rest.TrimEnd(Digits);
            int digits = rest.Length - name.Length;
            return digits > 1 || (digits == 1 && name is [.., '_' or '-' or '.' or ' ' or '(' or '#']) ? name + "*" + ending : null;
        }
    }
}
