using Portwitness.Cli.Photos;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Reports;

namespace Portwitness.Cli.Files;

/// <summary>What is checked: what the service is told of it, and the files that it may ask for.</summary>
/// <param name="Options">The product file's text, or the name of the capture and its label.</param>
/// <param name="Open">Opens one file; <see cref="CommandFailure"/> says why it is not given.</param>
internal sealed record CheckSubject(CheckOptions Options, Func<string, Stream> Open)
{
    /// <summary>A file that is named as YAML is, or a folder; without a product file it may be one that is a capture.</summary>
    public static bool IsProduct(string path) => path != InputFile.StandardInput
        && (Directory.Exists(path)
            ? File.Exists(Path.Combine(path, ProductFolder.ProductFileName)) || !(SysfsFolder.Is(path) || ExportFolder.Is(path))
            : Path.GetExtension(path) is ".yaml" or ".yml");

    public static async Task<CheckSubject> FromAsync(
        InputFile? typed, string path, string? label, string? port, ReadOptions? reading, InputFile? measurements, Terminal terminal,
        PhotoReading photos, CancellationToken cancellation) => typed is null && IsProduct(path)
            ? await FromProductAsync(path, photos, cancellation)
            : FromCapture(typed ?? InputFile.CaptureFrom(path, terminal), label, port, reading, measurements);

    public static async Task<CheckSubject> FromProductAsync(string path, PhotoReading photos, CancellationToken cancellation)
    {
        string file = Directory.Exists(path) ? Path.Combine(path, ProductFolder.ProductFileName) : path;
        if (file != path && FileKinds.Of(file) == FileKind.Missing)
        {
            throw new CommandFailure(
                $"{path}: holds no {ProductFolder.ProductFileName}; write one that names the label and the captures, or name a capture.");
        }

        string text = await TextInput.ReadAsync(new InputFile(file, () => InputFile.OpenFile(file)), cancellation);
        ProductFolder folder = new(Path.GetDirectoryName(Path.GetFullPath(file))!, photos);
        return new(new CheckOptions { Product = new ProductFile { File = file, Text = text } }, folder.Open);
    }

    /// <summary>One capture of several, which is opened when it is asked for.</summary>
    public static CheckSubject FromCaptureFile(string path, string label) => new(
        new CheckOptions { Capture = new LooseCapture { File = path, Label = label } },
        need => need == path ? InputFile.OpenFile(path) : throw new CommandFailure("that file was not named"));

    /// <summary>What was checked, as formats of reports name it.</summary>
    public static ReportedProduct Reported(string path, Verdict verdict, int exitCode, Func<ProductReport> read)
    {
        bool isProduct = IsProduct(path);
        return new ReportedProduct(
            isProduct && Directory.Exists(path) ? Path.Combine(path, ProductFolder.ProductFileName) : path, isProduct,
            ReportedProduct.OutcomeOf(verdict, exitCode == ExitCode.Unusable, exitCode == ExitCode.Findings), read);
    }

    private static CheckSubject FromCapture(
        InputFile input, string? label, string? port, ReadOptions? reading, InputFile? measurements)
    {
        // Opened before anything is sent: a capture that cannot be read is a mistake of the command line.
        Stream stream = input.Open();
        LooseCapture capture = new() { File = input.Name, Label = label ?? "", Port = port ?? "", Read = reading };
        return new(
            new CheckOptions { Capture = capture },
            need => need == input.Name ? stream
                : need == measurements?.Name ? measurements.Open()
                : throw new CommandFailure("that file was not named"));
    }
}
