using System.Text;

namespace Portwitness.Cli.Starting;

/// <summary>The text of a product file for what lies in a folder; what nobody can know is a comment.</summary>
internal static class ProductDraft
{
    /// <summary>The text.</summary>
    /// <param name="name">The product's name.</param>
    /// <param name="files">What lies there.</param>
    /// <param name="portOf">The port of a capture or a log; null when nobody knows it.</param>
    public static string Of(string name, IReadOnlyList<FoundFile> files, Func<FoundFile, string?> portOf)
    {
        StringBuilder text = new();
        text.Append("# yaml-language-server: $schema=product.schema.json\n# \"portwitness new --schema product > product.schema.json\" writes that file, for editors.\n");
        text.Append("product: ").Append(Quoted(name)).Append('\n');
        Label(text, files);
        List(text, "captures", files.Where(static file => file.Kind == FoundKind.Capture), file => Capture(file, portOf), "  # - {file: c1.capture.jsonl, port: C1, in_use: [C1]}\n");
        List(text, "loads", files.Where(static file => file.Kind == FoundKind.Log), file => Log(file, portOf), "");
        text.Append("# offers:                              # read off a display, where nothing was recorded\n#   - {port: C1, list: [5V 3A, 9V 3A], read_on: 2026-03-02, from: a display}\n");
        foreach (FoundFile offers in files.Where(static file => file.Kind == FoundKind.Offers))
        {
            text.Append("#   ").Append(Quoted(offers.Name)).Append(" seems to hold typed offers: copy them here\n");
        }

        text.Append("# signalling:                          # what ports answer to besides USB PD\n#   A: [DCP]\n");
        foreach (FoundFile photo in files.Where(static file => file.Kind == FoundKind.Photo))
        {
            text.Append("# label: {photo: ").Append(Quoted(photo.Name)).Append("}   # where it shows the label; add checked: true when you have compared what was recognised\n");
        }

        return text.ToString();
    }

    private static void Label(StringBuilder text, IReadOnlyList<FoundFile> files)
    {
        FoundFile[] labels = [.. files.Where(static file => file.Kind == FoundKind.Label)];
        if (labels.Length == 0)
        {
            text.Append("# label: |                             # what is printed, line by line\n#   USB-C1: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓3.25A (65W Max)\n");
            return;
        }

        text.Append("label: {file: ").Append(Quoted(labels[0].Name)).Append("}\n");
        foreach (FoundFile other in labels.Skip(1))
        {
            text.Append("# or: label: {file: ").Append(Quoted(other.Name)).Append("}\n");
        }
    }

    private static void List(StringBuilder text, string member, IEnumerable<FoundFile> files, Func<FoundFile, string> line, string example)
    {
        string[] lines = [.. files.Select(line)];
        bool isOpen = lines.All(static one => one.StartsWith('#'));
        if (lines.Length > 0 || example.Length > 0)
        {
            text.Append(isOpen ? "# " : "").Append(member).Append(":\n");
        }

        foreach (string one in lines)
        {
            text.Append(one);
        }

        text.Append(lines.Length == 0 ? example.Replace("  # - ", "#   - ", StringComparison.Ordinal) : "");
    }

    private static string Capture(FoundFile file, Func<FoundFile, string?> portOf)
    {
        if (file.Ports.Length > 1)
        {
            return string.Concat(file.Ports.Select(port => $"  - {{file: {Quoted(file.Name)}, port: {Quoted(port)}}}\n"));
        }

        if (file is { Port: not null, StatesInUse: true })
        {
            return $"  - {Quoted(file.Name)}\n";
        }

        return portOf(file) is { } port
            ? $"  - {{file: {Quoted(file.Name)}, port: {Quoted(port)}{(file.StatesInUse ? "" : $", in_use: [{Quoted(port)}]")}}}"
                + $"{(file.Port is null ? "   # by the file's name; correct port and ports in use" : "   # correct the ports in use")}\n"
            : $"# - {{file: {Quoted(file.Name)}, port: ?, in_use: [?]}}   # which port, and which were in use?\n";
    }

    // A log does not say at what it was drawn.
    private static string Log(FoundFile file, Func<FoundFile, string?> portOf) =>
        $"# - {{port: {(portOf(file) is { } port ? Quoted(port) : "?")}, at: 5V 3A, file: {Quoted(file.Name)}}}   # at which voltage and current? under \"discharges:\" when it emptied a full pack\n";

    // Plain where nothing of it means something in YAML.
    private static string Quoted(string text) => text.Length > 0 && char.IsAsciiLetter(text[0]) && text.All(static letter => char.IsAsciiLetterOrDigit(letter) || letter is '-' or '_' or '.' or '/')
        ? text
        : $"\"{string.Concat(text.Select(static letter => letter switch { '\\' => "\\\\", '"' => "\\\"", _ => char.IsControl(letter) ? $"\\u{(int)letter:X4}" : letter.ToString() }))}\"";
}
