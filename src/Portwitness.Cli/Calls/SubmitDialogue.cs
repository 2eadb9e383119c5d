using System.Security.Cryptography;
using Google.Protobuf;
using Grpc.Core;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Files;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;

namespace Portwitness.Cli.Calls;

/// <summary>
/// Submits one product: gives the files that the service says it wants, small ones within the request, large ones by uploading them first. All of
/// it can be done again from the beginning; what arrived already is not sent twice.
/// </summary>
internal sealed class SubmitDialogue(ServiceConnection service, CheckSubject subject, Progress progress)
{
    private const int Rounds = 5;
    private const int InlineBytes = 256 << 10;
    private const int AllInlineBytes = 2 << 20;

    private readonly SubmitRequest _request = new() { Options = subject.Options };
    private readonly Dictionary<string, string> _files = [];

    public async Task<Submission> RunAsync(CancellationToken cancellation)
    {
        for (int round = 0; round < Rounds; round++)
        {
            Submission submission = await service.Client.SubmitAsync(_request, cancellationToken: cancellation);
            if (submission.State != SubmissionState.Incomplete)
            {
                return submission;
            }

            foreach (string file in submission.WantedFiles)
            {
                _request.Files.Add(await GiveAsync(file, cancellation));
            }

            foreach (string hash in submission.WantedContent)
            {
                await ResilientCalls.RunAsync(service.Again, token => UploadAsync(hash, token), cancellation);
            }
        }

        throw new CommandFailure("the service wants more and more files; is it of another version?");
    }

    private async Task<SubmittedFile> GiveAsync(string file, CancellationToken cancellation)
    {
        try
        {
            await using Stream stream = subject.Open(file);
            byte[] begin = new byte[InlineBytes + 1];
            int length = await stream.ReadAtLeastAsync(begin, begin.Length, throwOnEndOfStream: false, cancellation);
            if (length <= InlineBytes && _request.CalculateSize() + length <= AllInlineBytes)
            {
                return new SubmittedFile { File = file, Data = UnsafeByteOperations.UnsafeWrap(begin.AsMemory(0, length)) };
            }
        }
        catch (CommandFailure failure)
        {
            return new SubmittedFile { File = file, Missing = new FileMissing { Reason = failure.Message } };
        }

        await using Stream whole = subject.Open(file);
        string hash = Convert.ToHexStringLower(await SHA256.HashDataAsync(whole, cancellation));
        _files[hash] = file;
        return new SubmittedFile { File = file, Sha256 = hash };
    }

    private async Task<bool> UploadAsync(string hash, CancellationToken cancellation)
    {
        string file = _files.GetValueOrDefault(hash) ?? throw new CommandFailure("the service wants a file that was not named.");
        await using Stream stream = await SeekableAsync(file, cancellation);
        try
        {
            await UploadDialogue.RunAsync(service.Client, stream, file, hash, progress, cancellation);
        }
        catch (RpcException exception) when (exception.StatusCode == StatusCode.DataLoss)
        {
            throw new CommandFailure($"{file}: changed while it was sent; submit it again when it is complete.");
        }

        return true;
    }

    // What is put together from a folder can only be read from its beginning; it is small.
    private async Task<Stream> SeekableAsync(string file, CancellationToken cancellation)
    {
        Stream stream = subject.Open(file);
        if (stream.CanSeek)
        {
            return stream;
        }

        await using (stream)
        {
            MemoryStream copy = new();
            await stream.CopyToAsync(copy, cancellation);
            return copy;
        }
    }
}
