using Google.Protobuf;
using Grpc.Core;
using Portwitness.History;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Submitting;

/// <summary>The client's side of a Check call, for what was submitted: answers each need of the service from the request, or from what was uploaded.</summary>
/// <param name="request">What was submitted.</param>
/// <param name="uploads">Where what was uploaded lies; null when nothing can be.</param>
/// <param name="cancellation">Stops it.</param>
internal sealed class SubmittedFiles(Wire.SubmitRequest request, IUploadStore? uploads, CancellationToken cancellation)
    : IAsyncStreamReader<Wire.CheckRequest>, IServerStreamWriter<Wire.CheckResponse>, IAsyncDisposable
{
    // A capture and its measurements are wanted in turns, so that two may be open.
    private readonly Dictionary<string, IAsyncEnumerator<ByteString>> _open = [];
    private string? _needed;
    private bool _inTurns;
    private bool _begun;

    /// <inheritdoc/>
    public Wire.CheckRequest Current { get; private set; } = new();

    /// <summary>The answer.</summary>
    public Wire.ProductReport? Report { get; private set; }

    /// <summary>Without effect.</summary>
    public WriteOptions? WriteOptions { get; set; }

    /// <inheritdoc/>
    public async Task<bool> MoveNext(CancellationToken cancellationToken)
    {
        if (!_begun)
        {
            _begun = true;
            Current = new Wire.CheckRequest { Options = request.Options };
            return true;
        }

        if (_needed is null)
        {
            return false;
        }

        Current = await NextOfAsync(_needed);
        if (_inTurns || Current.PartCase != Wire.CheckRequest.PartOneofCase.Data)
        {
            _needed = null;
        }

        return true;
    }

    /// <inheritdoc/>
    public Task WriteAsync(Wire.CheckResponse message, CancellationToken cancellationToken) => WriteAsync(message);

    /// <inheritdoc/>
    public Task WriteAsync(Wire.CheckResponse message)
    {
        switch (message.PartCase)
        {
            case Wire.CheckResponse.PartOneofCase.Need:
                (_needed, _inTurns) = (message.Need, false);
                break;
            case Wire.CheckResponse.PartOneofCase.NeedPiece:
                (_needed, _inTurns) = (message.NeedPiece.File, true);
                break;
            default:
                Report = message.Report;
                break;
        }

        return Task.CompletedTask;
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        foreach (IAsyncEnumerator<ByteString> open in _open.Values)
        {
            await open.DisposeAsync();
        }
    }

    private async Task<Wire.CheckRequest> NextOfAsync(string file)
    {
        if (!_open.TryGetValue(file, out IAsyncEnumerator<ByteString>? pieces))
        {
            Wire.SubmittedFile given = request.Files.FirstOrDefault(one => one.File == file)
                ?? throw new RpcException(new Status(StatusCode.InvalidArgument, $"\"{file}\" is needed, and was not submitted."));
            if (given.ContentCase == Wire.SubmittedFile.ContentOneofCase.Missing)
            {
                return new Wire.CheckRequest { Missing = given.Missing };
            }

            _open[file] = pieces = PiecesOf(given).GetAsyncEnumerator(cancellation);
        }

        if (await pieces.MoveNextAsync())
        {
            return new Wire.CheckRequest { Data = pieces.Current };
        }

        _open.Remove(file);
        await pieces.DisposeAsync();
        return new Wire.CheckRequest { End = new Wire.FileEnd() };
    }

    private async IAsyncEnumerable<ByteString> PiecesOf(Wire.SubmittedFile file)
    {
        if (file.HasData)
        {
            yield return file.Data;
            yield break;
        }

        bool isThere = false;
        await foreach (byte[] piece in (uploads ?? throw Gone(file.Sha256)).ReadAsync(file.Sha256, cancellation))
        {
            isThere = true;
            yield return UnsafeByteOperations.UnsafeWrap(piece);
        }

        // Nothing uploaded is empty: an empty file needs no upload.
        if (!isThere)
        {
            throw Gone(file.Sha256);
        }
    }

    private static RpcException Gone(string hash) => new(new Status(StatusCode.FailedPrecondition, $"{hash} was not uploaded, or was dropped since; upload it again."));
}
