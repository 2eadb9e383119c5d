using System.Text;
using Portwitness.Reports.Text;

namespace Portwitness.Cli.Shell;

/// <summary>Where a command reads and writes; tests give their own.</summary>
internal sealed record Terminal
{
    private const int PipeColumns = 100;
    private const int FewestColumns = 40;

    public required Stream Input { get; init; }

    public required TextWriter Output { get; init; }

    public required TextWriter Error { get; init; }

    /// <summary>Standard output for bytes; nothing of <see cref="Output"/> may be held when it is used.</summary>
    public Stream OutputBytes { get; init; } = Stream.Null;

    /// <summary>Whether nobody reads standard output any more.</summary>
    public Func<bool> OutputIsGone { get; init; } = static () => false;

    /// <summary>Whether the process is this command's alone, to be ended with it.</summary>
    public bool IsOfProcess { get; init; }

    /// <summary>Whether a person answers at standard input.</summary>
    public bool InputIsTerminal { get; init; }

    /// <summary>Whether standard error is watched by a person.</summary>
    public bool ErrorIsTerminal { get; init; }

    /// <summary>Whether standard output is watched by a person.</summary>
    public bool OutputIsTerminal { get; init; }

    public int Columns { get; init; } = PipeColumns;

    /// <summary>The environment asks for no colour (no-color.org).</summary>
    public bool NoColor { get; init; }

    public static Terminal FromConsole()
    {
        UTF8Encoding utf8 = new(encoderShouldEmitUTF8Identifier: false);
        bool terminal = !Console.IsOutputRedirected;
        (Stream input, StandardStream output, StandardStream error) = StandardStream.Open();
        return new Terminal
        {
            Input = input,
            Output = new StreamWriter(output, utf8, 16 << 10) { AutoFlush = terminal },
            OutputBytes = output,
            OutputIsGone = () => output.IsGone,
            IsOfProcess = true,
            InputIsTerminal = !Console.IsInputRedirected,
            ErrorIsTerminal = !Console.IsErrorRedirected,
            Error = new StreamWriter(error, utf8, 256) { AutoFlush = true },
            OutputIsTerminal = terminal,
            Columns = terminal && Console.WindowWidth >= FewestColumns ? Console.WindowWidth : PipeColumns,
            NoColor = !string.IsNullOrEmpty(Environment.GetEnvironmentVariable("NO_COLOR")),
        };
    }

    /// <summary>For commands that could go on for long: stops where nobody reads what they find.</summary>
    /// <exception cref="OutputFailure">Nobody does.</exception>
    public void StopWhenGone()
    {
        if (OutputIsGone())
        {
            throw new OutputFailure("", ExitCode.OutputGone);
        }
    }

    /// <summary>Says something that is not part of the report.</summary>
    public void Say(string message) => Error.WriteLine($"portwitness: {VisibleText.Of(message)}");
}
