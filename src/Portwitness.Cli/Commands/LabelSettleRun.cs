using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Grpc.Core;
using Portwitness.Cli.Files;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Cli.Commands;

/// <summary>
/// label --settle: asks place by place how to read what is unread or doubtful, and writes the answers into a product file. The file is
/// written once, at the end, whole.
/// </summary>
internal sealed class LabelSettleRun(Terminal terminal, Witness.WitnessClient client, string text, string path)
{
    private readonly HashSet<(int Line, int Column)> _left = [];
    private string _product = "";
    private int _settled;

    /// <exception cref="CommandFailure">Nobody can answer.</exception>
    public static void CheckTerminal(Terminal terminal, string label, string path)
    {
        if (!terminal.InputIsTerminal || label == InputFile.StandardInput)
        {
            throw new CommandFailure(
                $"--settle asks at a terminal, and standard input is none; paste the lines that 'portwitness label' offers under \"label_corrections:\" in {path}.");
        }
    }

    /// <summary>The label as it is read with the answers.</summary>
    public async Task<ReadLabelResponse> RunAsync(CancellationToken cancellation)
    {
        _product = await TextInput.ReadAsync(InputFile.From(path, terminal), cancellation);
        using StreamReader answers = new(terminal.Input, Encoding.UTF8, leaveOpen: true);
        ReadLabelResponse read = await ReadAsync([], cancellation);
        while (Next(read.Label) is { } place)
        {
            Ask(place);
            string? answer = await answers.ReadLineAsync(cancellation);
            if (answer is null)
            {
                break;
            }

            read = await AnswerAsync(place, answer.Trim(), read, cancellation);
        }

        if (_settled > 0)
        {
            using AtomicFile file = AtomicFile.Create(path);
            file.Writer.Write(_product);
            file.Commit();
        }

        int open = read.Label.OpenPlaces.Count(static place => place.MayRate);
        terminal.Say($"{_settled} {(_settled == 1 ? "place" : "places")} settled in {path}; {open} that could rate something left.");
        return read;
    }

    private OpenPlace? Next(Label label) => label.OpenPlaces.FirstOrDefault(place => !_left.Contains((place.Line, place.Column)));

    private void Ask(OpenPlace place)
    {
        string[] lines = text.ReplaceLineEndings("\n").Split('\n');
        terminal.Error.WriteLine($"Line {place.Line}: {VisibleText.Of(lines[place.Line - 1])}");
        terminal.Error.WriteLine($"  not clear: {VisibleText.Of(place.Text)}");
        for (int i = 0; i < place.Readings.Count; i++)
        {
            terminal.Error.WriteLine($"  {i + 1}  {VisibleText.Of(place.Readings[i])}");
        }

        terminal.Error.Write(place.Readings.Count > 0
            ? "A number, what is printed there in other words, or Enter to leave it: "
            : "What is printed there in other words, or Enter to leave it: ");
        terminal.Error.Flush();
    }

    private async Task<ReadLabelResponse> AnswerAsync(OpenPlace place, string answer, ReadLabelResponse before, CancellationToken cancellation)
    {
        if (answer.Length == 0)
        {
            _left.Add((place.Line, place.Column));
            return before;
        }

        bool isNumber = int.TryParse(answer, NumberStyles.None, CultureInfo.InvariantCulture, out int number) && number >= 1 && number <= place.Readings.Count;
        string line = isNumber ? place.Readings[number - 1] : Correction(place, answer);
        try
        {
            ReadLabelResponse read = await ReadAsync([line], cancellation);
            if (read.Label.OpenPlaces.Any(open => open.Line == place.Line && open.Column == place.Column))
            {
                terminal.Error.WriteLine($"  that is not read either: {VisibleText.Of(answer)}; write for example C1: 5V 3A, or C1 45W, C2+A share 15W");
                return before;
            }

            _product = read.ProductFile;
            _settled++;
            return read;
        }
        catch (RpcException exception) when (exception.StatusCode == StatusCode.InvalidArgument)
        {
            terminal.Error.WriteLine($"  {VisibleText.Of(exception.Status.Detail)}");
            _left.Add((place.Line, place.Column));
            return before;
        }
    }

    private async Task<ReadLabelResponse> ReadAsync(IEnumerable<string> corrections, CancellationToken cancellation)
    {
        ReadLabelRequest request = new() { Text = text, ProductFile = _product };
        request.Corrections.AddRange(corrections);
        return await client.ReadLabelAsync(request, cancellationToken: cancellation);
    }

    // A string of JSON is one of YAML (YAML 1.2, 1.3).
    private static string Correction(OpenPlace place, string answer) => string.Create(
        CultureInfo.InvariantCulture, $"{{line: {place.Line}, printed: \"{Escaped(place.Text)}\", read_as: \"{Escaped(answer)}\"}}");

    private static JsonEncodedText Escaped(string value) => JsonEncodedText.Encode(value, JavaScriptEncoder.UnsafeRelaxedJsonEscaping);
}
