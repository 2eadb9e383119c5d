using System.Text.Json;
using Google.Protobuf.Reflection;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.Net.Http.Headers;
using Portwitness.Service.Validation;

namespace Portwitness.Server.Json;

/// <summary>Reads the JSON of a request within its bounds, and tells what is wrong with it and where, before anything is made of it.</summary>
internal sealed class JsonBody(ServiceLimits limits)
{
    private const int Read = 4;
    private const int PieceBytes = 16 << 10;

    // Protobuf's own bound is 100; no message of the contract comes near.
    private static readonly JsonDocumentOptions Bounded = new() { MaxDepth = 64 };
    private static readonly byte[] ByteOrderMark = [0xEF, 0xBB, 0xBF];

    /// <summary>Puts the body that was read in the place of the one that comes.</summary>
    /// <returns>Whether it is good; an answer was written when it is not.</returns>
    public async Task<bool> ReadAsync(HttpContext context, MessageDescriptor message)
    {
        HttpRequest request = context.Request;
        if (!MediaTypeHeaderValue.TryParse(request.ContentType, out MediaTypeHeaderValue? type) || !type.MediaType.Equals("application/json", StringComparison.OrdinalIgnoreCase)
            || (type.Charset.HasValue && !type.Charset.Equals("utf-8", StringComparison.OrdinalIgnoreCase)) || request.Headers.ContentEncoding.Count > 0)
        {
            return await RefuseAsync(
                context, StatusCodes.Status415UnsupportedMediaType, "The body has to be JSON in UTF-8, not compressed: 'Content-Type: application/json'.");
        }

        // What is somewhat too long is read to its end, so that the answer arrives; who sends still more finds the connection closed.
        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } size)
        {
            size.MaxRequestBodySize = Read * limits.HttpBodyBytes;
        }

        MemoryStream body = new();
        context.Response.RegisterForDispose(body);
        using CancellationTokenSource late = CancellationTokenSource.CreateLinkedTokenSource(context.RequestAborted);
        late.CancelAfter(limits.Patience);
        try
        {
            if (!await CopyAsync(request.Body, body, late.Token))
            {
                return await TooLargeAsync(context);
            }
        }
        catch (OperationCanceledException) when (!context.RequestAborted.IsCancellationRequested)
        {
            context.Response.Headers.Connection = "close";
            return await RefuseAsync(context, StatusCodes.Status408RequestTimeout, $"The body did not come within {limits.Patience.TotalSeconds:0} s.");
        }
        catch (BadHttpRequestException exception) when (exception.StatusCode == StatusCodes.Status413PayloadTooLarge)
        {
            return await TooLargeAsync(context);
        }

        int start = body.GetBuffer().AsSpan(0, (int)body.Length).StartsWith(ByteOrderMark) ? ByteOrderMark.Length : 0;
        if (FindProblem(body, start, message) is { } problem)
        {
            return await RefuseAsync(context, StatusCodes.Status400BadRequest, problem);
        }

        body.Position = start;
        request.Body = body;
        return true;
    }

    private async Task<bool> CopyAsync(Stream from, MemoryStream to, CancellationToken cancellation)
    {
        byte[] piece = new byte[PieceBytes];
        bool fits = true;
        int length;
        while ((length = await from.ReadAsync(piece, cancellation)) > 0)
        {
            fits &= to.Length + length <= limits.HttpBodyBytes;
            if (fits)
            {
                to.Write(piece, 0, length);
            }
        }

        return fits;
    }

    private static string? FindProblem(MemoryStream body, int start, MessageDescriptor message)
    {
        if (body.Length == start)
        {
            return "The body is empty; it has to be a JSON object, {} at least.";
        }

        try
        {
            using JsonDocument document = JsonDocument.Parse(body.GetBuffer().AsMemory(0, (int)body.Length)[start..], Bounded);
            return JsonShape.FindProblem(document.RootElement, message);
        }
        catch (JsonException exception)
        {
            return $"line {exception.LineNumber + 1}, byte {exception.BytePositionInLine + 1}: no JSON that can be read: {Plain(exception.Message)}";
        }
    }

    // The place is told once.
    private static string Plain(string message)
    {
        int place = message.IndexOf(" LineNumber:", StringComparison.Ordinal);
        return place < 0 ? message : message[..place];
    }

    private Task<bool> TooLargeAsync(HttpContext context) => RefuseAsync(
        context, StatusCodes.Status413PayloadTooLarge, $"The body is too long; at most {limits.HttpBodyBytes} bytes are taken. Longer files are uploaded over gRPC.");

    private static async Task<bool> RefuseAsync(HttpContext context, int status, string message)
    {
        await JsonRefusal.WriteAsync(context, status, message);
        return false;
    }
}
